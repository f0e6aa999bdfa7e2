//! Classes, or teachers, side by side: what both pages show.

use analysis::method::Method;
use analysis::year::Comparison;
use analysis::year::cells::{Cell, Cells, FEW_GROUPS};
use analysis::year::share::Share;

use super::asked::{Years, has_open_circles};
use crate::chart::year::{Lane, LaneGraph, LaneMark, LanesOf};
use crate::report::number::percent;
use crate::report::year::{Frame, words};
use crate::words::counted;

/// One method of a year.
pub(super) struct MethodPart {
    pub(super) code: &'static str,
    pub(super) title: &'static str,
    pub(super) together: Option<String>,
    pub(super) lines: Vec<CellLine>,
    /// What is to be said of some of them, with their names.
    pub(super) remarks: Vec<(String, String)>,
    pub(super) ratios: Option<LaneGraph>,
    pub(super) marks: Option<LaneGraph>,
}

/// One class, or teacher, in words.
pub(super) struct CellLine {
    /// Its id, for addresses.
    pub(super) id: i64,
    pub(super) name: String,
    pub(super) lessons: usize,
    pub(super) handed_in: String,
    pub(super) complete: String,
    pub(super) counted: usize,
    pub(super) speed: String,
    pub(super) ratio: String,
    pub(super) range: String,
    pub(super) against: String,
    pub(super) against_range: String,
    pub(super) sd: String,
    pub(super) marked: usize,
    pub(super) mark: String,
    pub(super) mark_range: String,
    pub(super) ratio_before: String,
    pub(super) handed_in_before: String,
}

/// What is compared: ids and names, this year's figures, and those of the
/// year before where the same name was there.
pub(super) struct Compared<'a> {
    /// What one of them is called: `class`.
    pub(super) one: &'static str,
    pub(super) names: Vec<(i64, &'a str)>,
    pub(super) now: &'a [Cells],
    pub(super) names_before: Vec<&'a str>,
    pub(super) before: &'a [Cells],
    /// Name of the year before.
    pub(super) name_before: &'a str,
}

impl<'a> Compared<'a> {
    /// The cells of a year beside those of the year before: what they are of,
    /// with its id and name, and their figures.
    pub(super) fn of(
        one: &'static str,
        years: &'a Years,
        named: fn(&Frame) -> Vec<(i64, &str)>,
        figures: fn(&Comparison) -> &[Cells],
    ) -> Self {
        let before = years.before.as_ref();
        let names_before = before.map_or_else(Vec::new, |before| named(&before.frame));
        Self {
            one,
            names: named(&years.now.frame),
            now: figures(&years.now.comparison),
            names_before: names_before.into_iter().map(|(_, name)| name).collect(),
            before: before.map_or(&[], |before| figures(&before.comparison)),
            name_before: &years.nav.name_before,
        }
    }

    /// The methods that were done.
    pub(super) fn parts(&self) -> Vec<MethodPart> {
        self.now.iter().map(|cells| self.part(cells)).collect()
    }

    fn part(&self, cells: &Cells) -> MethodPart {
        let speeds = words::speeds(
            &cells
                .cells
                .iter()
                .map(|cell| cell.speed)
                .collect::<Vec<_>>(),
        );
        let done = cells.cells.iter().zip(&self.names).zip(speeds);
        let done = done.filter(|((cell, _), _)| cell.lessons > 0);
        let lines = done.map(|((cell, (id, name)), speed)| {
            let before = self.cell_before(cells.method, name);
            line(*id, name, cell, speed, before)
        });
        MethodPart {
            code: cells.method.code(),
            title: crate::words::title(cells.method),
            together: self.together(cells),
            lines: lines.collect(),
            remarks: self.remarks(cells),
            ratios: self.ratios(cells),
            marks: self.marks(cells),
        }
    }

    fn remarks(&self, cells: &Cells) -> Vec<(String, String)> {
        let all = self.names.iter().zip(&cells.cells);
        let done = all.filter(|(_, cell)| cell.lessons > 0);
        let remarks = done.map(|((_, name), cell)| ((*name).to_owned(), remark(cell)));
        remarks.filter(|(_, remark)| !remark.is_empty()).collect()
    }

    fn cell_before(&self, method: Method, name: &str) -> Option<&Cell> {
        let cells = self.before.iter().find(|cells| cells.method == method)?;
        let at = self.names_before.iter().position(|other| *other == name)?;
        cells.cells.get(at).filter(|cell| cell.lessons > 0)
    }

    fn together(&self, cells: &Cells) -> Option<String> {
        let together = cells.together.as_ref()?;
        Some(format!(
            "Groups of one {} scatter with a standard deviation of {} (repeatability); groups of different ones with {} (reproducibility).",
            self.one,
            percent(together.repeatability),
            percent(together.reproducibility)
        ))
    }

    /// One lane for each that did the method.
    fn lanes(&self, cells: &Cells, marks: impl Fn(&Cell, &str) -> Vec<LaneMark>) -> Vec<Lane> {
        let all = cells.cells.iter().zip(&self.names);
        let done = all.filter(|(cell, _)| cell.lessons > 0);
        done.map(|(cell, (_, name))| Lane {
            name: (*name).to_owned(),
            marks: marks(cell, name),
        })
        .collect()
    }

    fn ratios(&self, cells: &Cells) -> Option<LaneGraph> {
        let mark = |cell: &Cell| {
            let ratio = cell.ratio?;
            let mark = LaneMark::new(ratio.value, Some((ratio.low, ratio.high)));
            Some(LaneMark {
                is_wide: cell.counted <= FEW_GROUPS,
                ..mark
            })
        };
        let lanes = self.lanes(cells, |cell, name| {
            let before = self.cell_before(cells.method, name);
            let before = before.and_then(mark).map(LaneMark::open);
            mark(cell).into_iter().chain(before).collect()
        });
        let before = has_open_circles(&lanes).then(|| {
            format!(
                "Open circles: the same name in {}, other pupils.",
                self.name_before
            )
        });
        graph(LanesOf {
            id: format!("{}-ratios", cells.method.code()),
            title: format!(
                "{}: speed ÷ expected speed",
                crate::words::title(cells.method)
            ),
            description: "The mean of each, with its interval. The table says the same in numbers."
                .to_owned(),
            quantity: "speed ÷ expected speed",
            lanes,
            from_to: (0.98, 1.02),
            lines: vec![1.0],
            key: std::iter::once(
                "Crosses: this year, with 95 % intervals. The dashed line is what physics expects."
                    .to_owned(),
            )
            .chain(before)
            .collect(),
        })
    }

    fn marks(&self, cells: &Cells) -> Option<LaneGraph> {
        graph(LanesOf {
            id: format!("{}-marks", cells.method.code()),
            title: format!("{}: marks", crate::words::title(cells.method)),
            description:
                "The mean mark of each, with its interval. The table says the same in numbers."
                    .to_owned(),
            quantity: "marks ÷ full marks / %",
            lanes: self.lanes(cells, |cell, _| {
                let mean = cell.marks.and_then(|marks| marks.mean);
                let mark = mean.map(|mean| {
                    let [value, low, high] = [mean.value, mean.low.max(0.0), mean.high.min(1.0)]
                        .map(|share| 100.0 * share);
                    LaneMark::new(value, Some((low, high)))
                });
                mark.into_iter().collect()
            }),
            from_to: (0.0, 100.0),
            lines: Vec::new(),
            key: vec!["Crosses: the mean mark of its groups, with 95 % intervals.".to_owned()],
        })
    }
}

/// The graph without those that have no figure; `None` where none has.
fn graph(mut of: LanesOf) -> Option<LaneGraph> {
    of.lanes.retain(|lane| !lane.marks.is_empty());
    LaneGraph::draw(of)
}

fn line(id: i64, name: &str, cell: &Cell, speed: String, before: Option<&Cell>) -> CellLine {
    let whole = |share: f64| format!("{:.0}", 100.0 * share);
    let mean = cell.marks.and_then(|marks| marks.mean);
    CellLine {
        id,
        name: name.to_owned(),
        lessons: cell.lessons,
        handed_in: words::of(cell.handed_in),
        complete: words::of(cell.complete),
        counted: cell.counted,
        speed,
        ratio: words::ratio(cell.ratio.map(|figure| figure.value)),
        range: words::ratio_range(cell.ratio),
        against: cell
            .against_others
            .map_or_else(|| "–".to_owned(), |f| words::off(f.value)),
        against_range: words::off_range(cell.against_others),
        sd: cell.sd.map_or_else(|| "–".to_owned(), percent),
        marked: cell.marks.map_or(0, |marks| marks.groups),
        mark: mean.map_or_else(|| "–".to_owned(), |mean| format!("{} %", whole(mean.value))),
        mark_range: mean.map_or_else(String::new, |mean| {
            format!(
                "{} to {} %",
                whole(mean.low.max(0.0)),
                whole(mean.high.min(1.0))
            )
        }),
        ratio_before: words::ratio(before.and_then(|cell| cell.ratio).map(|f| f.value)),
        handed_in_before: words::of(before.map_or_else(Share::default, |cell| cell.handed_in)),
    }
}

fn remark(cell: &Cell) -> String {
    let mut remarks = Vec::new();
    if cell.counted <= FEW_GROUPS {
        remarks.push("so few groups say little".to_owned());
    }
    if cell.stands_apart == Some(true) {
        remarks.push(
            "its mean is further from the others’ than chance explains: look at its kits and its sheets"
                .to_owned(),
        );
    }
    if cell.left_aside > 0 {
        let groups = counted(cell.left_aside, "group", "groups");
        remarks.push(format!(
            "{groups} left aside as not belonging with the rest of the lesson"
        ));
    }
    if cell.slipped > 0 {
        let groups = counted(cell.slipped, "group", "groups");
        remarks.push(format!(
            "{groups} left aside for a confirmed slip in the readings"
        ));
    }
    remarks.join("; ")
}
