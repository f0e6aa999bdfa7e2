//! The methods, one folder each.
//!
//! A method's folder says all that is its own: its boxes and what is usual
//! in them ([`Spec`]), the chain from readings to speed with its wrong turns
//! (`step.rs`), what may have happened to its readings and what the physics
//! leads one to expect (`Model`). Everything else asks [`Method`]. A new
//! method is a folder here and a line in the list below.

pub(crate) mod model;
pub mod prior;
mod shared;
pub(crate) mod spec;
pub(crate) mod step;

use serde::{Deserialize, Serialize};

use crate::cause::Cause;
use crate::field::{Field, Place};
use crate::kit::Kind;
use crate::slip::Slip;
use crate::unit::Unit;

pub(crate) use model::Model;
pub use spec::{Marks, Spec};
use step::Step;

macro_rules! methods {
    ($($(#[doc = $doc:literal])+ $variant:ident $folder:ident;)+) => {
        $(mod $folder;)+

        /// A way of measuring the speed of waves.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        pub enum Method {
            $($(#[doc = $doc])+ $variant,)+
        }

        impl Method {
            /// All methods, in the order of a choice on a page.
            pub const ALL: [Self; [$(stringify!($variant)),+].len()] = [$(Self::$variant),+];

            /// Returns what its folder says of it.
            #[must_use]
            pub fn spec(self) -> &'static Spec {
                match self {
                    $(Self::$variant => &$folder::SPEC,)+
                }
            }
        }
    };
}

methods! {
    /// Ripples on water, seen enlarged on a screen.
    RippleTank ripple_tank;
    /// Standing loops on a stretched string.
    StringLoops string_loops;
}

impl Method {
    /// The code in files and addresses.
    #[must_use]
    pub fn code(self) -> &'static str {
        self.spec().code
    }

    /// The method with this code.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|m| m.code() == code)
    }

    /// Whether a sheet of this method has this box.
    #[must_use]
    pub fn has(self, field: Field) -> bool {
        let spec = self.spec();
        let parts = [spec.whole, spec.columns, spec.counted, spec.results];
        parts.iter().any(|fields| fields.contains(&field))
            || spec.chain.iter().any(|step| step.field == field)
    }

    /// The boxes of this method, in the order of the work.
    pub fn fields(self) -> impl Iterator<Item = Field> {
        Field::ALL.into_iter().filter(move |f| self.has(*f))
    }

    /// The columns of the group's working, in the order of the work.
    pub fn working_columns(self) -> impl Iterator<Item = Field> {
        let steps = self.spec().chain.iter().map(|step| step.field);
        steps.filter(|field| field.place() == Place::Row)
    }

    /// The chain from readings to the speed of a row, in the order of the
    /// work.
    pub(crate) fn chain(self) -> &'static [Step] {
        self.spec().chain
    }

    /// What may have happened to its readings, and what physics expects.
    pub(crate) fn model(self) -> &'static dyn Model {
        self.spec().model
    }

    /// The kind of kit that is its own; a generator may stand beside any.
    #[must_use]
    pub fn kit(self) -> Kind {
        self.spec().kit
    }

    /// The measured readings behind a worked figure, with those behind the
    /// figures that it needs. Behind a figure of the whole sheet are those of
    /// the speeds.
    pub(crate) fn measured(self, field: Field) -> Vec<Field> {
        let Some(last) = self.chain().last() else {
            return Vec::new();
        };
        let of_field = self.chain().iter().find(|step| step.field == field);
        let step = of_field.unwrap_or(last);
        let needed = step.needs.iter().flat_map(|field| self.measured(*field));
        step.measured.iter().copied().chain(needed).collect()
    }

    /// Whether a sheet of this method can show this slip: one that a step of
    /// some method's chain names, in those methods alone; any other in all.
    #[must_use]
    pub fn can_show(self, slip: Slip) -> bool {
        // The shared step of the frequency takes counts where there are any.
        let is_of_counts = matches!(slip, Slip::CountNotDivided | Slip::CountedFromOne);
        let names = |method: &Self| {
            let mut turns = method.chain().iter().flat_map(|step| step.wrong);
            turns.any(|turn| turn.slip == slip) && (method.has(Field::PassesFirst) || !is_of_counts)
        };
        names(&self) || !Self::ALL.iter().any(names)
    }

    /// Whether this can happen to its readings.
    #[must_use]
    pub fn can_suffer(self, cause: Cause) -> bool {
        self.spec().causes.contains(&cause)
    }

    /// The unit in the heading of a field: the one in which a figure without
    /// a unit is read first. `None` for counts and ratios.
    #[must_use]
    pub fn heading_unit(self, field: Field) -> Option<Unit> {
        let own = self.spec().headings.iter();
        let mut own = own.filter(|(of, _)| *of == field).map(|(_, unit)| *unit);
        own.next().or_else(|| field.heading_unit())
    }

    /// The reading of a row that is measured with a ruler.
    #[must_use]
    pub fn length(self) -> Field {
        self.spec().length
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::field::Role;

    #[test]
    fn code_is_the_name_in_stored_sheets() {
        for method in Method::ALL {
            let stored = serde_json::to_string(&method).unwrap();
            assert_eq!(stored, format!("\"{}\"", method.code()));
        }
    }

    #[test]
    fn boxes_on_the_page_are_those_of_a_revision_and_stand_where_they_belong() {
        for method in Method::ALL {
            let spec = method.spec();
            let of_sheet = [spec.whole, spec.results].concat();
            assert!(
                of_sheet.iter().all(|f| f.place() == Place::Sheet),
                "{method:?}"
            );
            let of_rows = [spec.columns, spec.counted].concat();
            assert!(
                of_rows.iter().all(|f| f.place() == Place::Row),
                "{method:?}"
            );
            assert!(
                of_rows.iter().all(|f| f.role() == Role::Reading),
                "{method:?}"
            );
            for (field, unit) in spec.headings {
                assert_eq!(field.quantity(), unit.quantity(), "{method:?} {field:?}");
            }
        }
    }

    #[test]
    fn steps_need_only_steps_before_them() {
        for method in Method::ALL {
            for (at, step) in method.chain().iter().enumerate() {
                let before = &method.chain()[..at];
                let is_before = |field: &Field| before.iter().any(|step| step.field == *field);
                assert!(step.needs.iter().all(is_before), "{method:?} {step:?}");
            }
        }
    }
}
