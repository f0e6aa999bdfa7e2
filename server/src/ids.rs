//! Ids as types, so that a bench is never looked up with a sheet's number.

macro_rules! ids {
    ($($(#[doc = $doc:literal])+ $name:ident;)+) => {$(
        $(#[doc = $doc])+
        #[derive(
            Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash,
            sqlx::Type, serde::Serialize, serde::Deserialize,
        )]
        #[sqlx(transparent)]
        #[serde(transparent)]
        pub struct $name(pub i64);

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                self.0.fmt(f)
            }
        }
    )+};
}

ids! {
    /// Row of `department`.
    DepartmentId;
    /// Row of `staff`.
    StaffId;
    /// Row of `class`.
    ClassId;
    /// Row of `kit`.
    KitId;
    /// Row of `class_set`.
    ClassSetId;
    /// Row of `bench`.
    BenchId;
    /// Row of `visit`.
    VisitId;
    /// Row of `sheet`.
    SheetId;
    /// Row of `revision`.
    RevisionId;
    /// Row of `annotation`.
    AnnotationId;
    /// Row of `scheme`.
    SchemeId;
    /// Row of `scheme_version`.
    SchemeVersionId;
    /// Row of `marking_point`.
    MarkingPointId;
    /// Row of `mark`.
    MarkId;
    /// Row of `comment`.
    CommentId;
    /// Row of `moderation_round`.
    RoundId;
    /// Row of `round_sheet`.
    RoundSheetId;
    /// Row of `settlement`.
    SettlementId;
}
