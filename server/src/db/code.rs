//! Values that stand in the file, and in forms, as a code.

/// Makes an enum of such values, each with its code.
macro_rules! codes {
    ($(#[$about:meta])* pub enum $name:ident { $($(#[$each:meta])* $variant:ident = $code:literal,)+ }) => {
        $(#[$about])*
        pub enum $name {
            $($(#[$each])* $variant,)+
        }

        impl $name {
            /// All of them, in the order of a choice.
            pub const ALL: &[Self] = &[$(Self::$variant),+];

            /// Returns its code.
            #[must_use]
            pub const fn code(self) -> &'static str {
                match self {
                    $(Self::$variant => $code,)+
                }
            }

            /// Finds the value with a code. Returns `None` for any other text.
            #[must_use]
            pub fn from_code(code: &str) -> Option<Self> {
                match code {
                    $($code => Some(Self::$variant),)+
                    _ => None,
                }
            }
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
