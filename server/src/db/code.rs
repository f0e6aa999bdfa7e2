//! Values that stand in the data file as a code.

/// Makes an enum of such values (`analysis::coded`), to be bound and read.
macro_rules! codes {
    ($(#[$about:meta])* pub enum $name:ident { $($(#[$each:meta])* $variant:ident = $code:literal,)+ }) => {
        analysis::coded! {
            $(#[$about])*
            pub enum $name { $($(#[$each])* $variant = $code,)+ }
        }

        impl<DB: sqlx::Database> sqlx::Type<DB> for $name
        where
            str: sqlx::Type<DB>,
        {
            fn type_info() -> DB::TypeInfo {
                <str as sqlx::Type<DB>>::type_info()
            }

            fn compatible(info: &DB::TypeInfo) -> bool {
                <str as sqlx::Type<DB>>::compatible(info)
            }
        }

        impl<'q, DB: sqlx::Database> sqlx::Encode<'q, DB> for $name
        where
            &'static str: sqlx::Encode<'q, DB>,
        {
            fn encode_by_ref(
                &self,
                into: &mut <DB as sqlx::Database>::ArgumentBuffer,
            ) -> Result<sqlx::encode::IsNull, sqlx::error::BoxDynError> {
                self.code().encode(into)
            }
        }

        impl<'r, DB: sqlx::Database> sqlx::Decode<'r, DB> for $name
        where
            &'r str: sqlx::Decode<'r, DB>,
        {
            fn decode(value: DB::ValueRef<'r>) -> Result<Self, sqlx::error::BoxDynError> {
                let code = <&str as sqlx::Decode<'r, DB>>::decode(value)?;
                Self::from_code(code).ok_or_else(|| format!("no such value: {code:?}").into())
            }
        }
    };
}
