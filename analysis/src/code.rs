//! Values that are known by a code: in files, in forms, in stored rows.

/// Makes an enum of such values, each with its code. Where it is written as
/// JSON, it is written as its code.
#[macro_export]
macro_rules! coded {
    ($(#[$about:meta])* pub enum $name:ident { $($(#[$each:meta])* $variant:ident = $code:literal,)+ }) => {
        $(#[$about])*
        #[derive(
            Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash,
            ::serde::Serialize, ::serde::Deserialize,
        )]
        pub enum $name {
            $($(#[$each])* #[serde(rename = $code)] $variant,)+
        }

        impl $name {
            /// All of them, in the order of a choice.
            pub const ALL: [Self; [$($code),+].len()] = [$(Self::$variant),+];

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
    };
}
