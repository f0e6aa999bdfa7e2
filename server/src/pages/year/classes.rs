//! The classes of a year side by side, in the order of the timetable; and, for
//! the head of department alone, the class sets of each teacher.

use analysis::method::Method;
use analysis::year::Comparison;
use analysis::year::cells::{self, Cells, FEW_GROUPS};
use analysis::year::share::Share;
use axum::extract::Query;

use super::{Nav, YearQuery, Years, off_cell, ratio_cell};
use crate::chart::lanes::{Lane, LaneMark, Lanes};
use crate::chart::{Graph, lanes};
use crate::report::year::YearFrame;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::number::percent;
use crate::words::share::{of, per_cents, ratio, speeds};
use crate::words::year;
use crate::words::{capitalised, title};

#[derive(askama::Template)]
#[template(path = "year/classes.html")]
struct ClassesPage {
    layout: Layout,
    nav: Nav,
    here: &'static str,
    is_of_teachers: bool,
    methods: Vec<MethodPart>,
}

struct MethodPart {
    method: Method,
    together: Option<String>,
    speeds: PageTable,
    /// What is to be said of some of them, with their names.
    remarks: Vec<(String, String)>,
    ratios: Option<Graph>,
    hand_in: PageTable,
    marks: Option<(Graph, PageTable)>,
}

/// Shows the page of classes.
pub(super) async fn get(state: AppState, Query(asked): Query<YearQuery>, by: SignedIn) -> Reply {
    let years = asked.years(&state, &by).await?;
    let named = |frame: &YearFrame| {
        let classes = frame.classes.iter();
        classes
            .map(|class| (class.id.0, class.name.clone()))
            .collect()
    };
    Page(ClassesPage {
        layout: by.layout,
        here: "/year/classes",
        is_of_teachers: false,
        methods: parts("class", &years, named, |figures| &figures.classes),
        nav: years.nav,
    })
    .reply()
}

/// Shows the page of teachers.
pub(super) async fn get_teachers(
    state: AppState,
    Query(asked): Query<YearQuery>,
    by: SignedIn,
) -> Reply {
    let years = asked.years(&state, &by).await?;
    let named = |frame: &YearFrame| {
        let teachers = frame.teachers.iter();
        teachers.map(|one| (one.id.0, one.name.clone())).collect()
    };
    Page(ClassesPage {
        layout: by.layout,
        here: "/year/teachers",
        is_of_teachers: true,
        methods: parts("teacher", &years, named, |figures| &figures.teachers),
        nav: years.nav,
    })
    .reply()
}

/// Returns the methods that were done: the year's figures, and those of the
/// year before where the same name was there.
fn parts(
    one: &'static str,
    years: &Years,
    named: fn(&YearFrame) -> Vec<(i64, String)>,
    figures: fn(&Comparison) -> &Vec<Cells>,
) -> Vec<MethodPart> {
    let names = named(&years.now.frame);
    let before = years.before.as_ref();
    let names_before = before.map_or_else(Vec::new, |before| named(&before.frame));
    let method = |cells: &Cells| {
        let earlier = years.earlier().map(figures).into_iter().flatten();
        let earlier = earlier.filter(|earlier| earlier.method == cells.method);
        let earlier = earlier.flat_map(|earlier| names_before.iter().zip(&earlier.cells));
        let earlier: Vec<_> = earlier.filter(|(_, cell)| cell.lessons > 0).collect();
        let lines = names.iter().zip(&cells.cells);
        let lines = lines.filter(|(_, cell)| cell.lessons > 0);
        let lines = lines.map(|((id, name), now)| {
            let mut same = earlier.iter().filter(|((_, other), _)| other == name);
            let before = same.next().map(|(_, cell)| *cell);
            let id = *id;
            ClassLine {
                id,
                name,
                now,
                before,
            }
        });
        let side_by_side = SideBySide {
            one,
            nav: &years.nav,
            method: cells.method,
            lines: lines.collect(),
        };
        side_by_side.part(cells)
    };
    figures(&years.now.comparison).iter().map(method).collect()
}

/// One class, or teacher.
struct ClassLine<'a> {
    id: i64,
    name: &'a str,
    now: &'a cells::Cell,
    before: Option<&'a cells::Cell>,
}

/// Those that did one method.
struct SideBySide<'a> {
    /// What one of them is called: `class`.
    one: &'static str,
    nav: &'a Nav,
    method: Method,
    lines: Vec<ClassLine<'a>>,
}

impl SideBySide<'_> {
    fn part(&self, cells: &Cells) -> MethodPart {
        let together = cells.together.as_ref();
        let one = self.one;
        let remarks = self
            .lines
            .iter()
            .map(|line| (line.name.to_owned(), year::remark(line.now, FEW_GROUPS)));
        MethodPart {
            method: self.method,
            together: together
                .map(|all| year::scatter(one, all.repeatability, all.reproducibility)),
            speeds: self.speeds(),
            remarks: remarks.filter(|(_, remark)| !remark.is_empty()).collect(),
            ratios: self.ratios(),
            hand_in: self.hand_in(),
            marks: self.mark_graph().map(|graph| (graph, self.marks())),
        }
    }

    fn speeds(&self) -> PageTable {
        let all: Vec<_> = self.lines.iter().map(|line| line.now.speed).collect();
        let speeds: Vec<(&ClassLine<'_>, String)> = self.lines.iter().zip(speeds(&all)).collect();
        let name = |line: &ClassLine<'_>| match self.one {
            "class" => Cell::from(line.name).link(self.nav.to(&format!("/classes/{}", line.id))),
            _ => Cell::from(line.name),
        };
        Table::of(&speeds)
            .name(capitalised(self.one), |(line, _)| name(line))
            .figure("Groups counted", |(line, _)| line.now.counted)
            .figure("Middle speed", |(_, speed)| speed)
            .unit("m/s")
            .figure("Speed ÷ expected", |(line, _)| ratio_cell(line.now.ratio))
            .unit("95 % interval")
            .text("Against the others", |(line, _)| off_cell(line.now.against_others))
            .unit("95 % interval")
            .figure("Spread", |(line, _)| line.now.sd.map_or_else(dash, percent))
            .figure(format!("In {}", self.nav.name_before), |(line, _)| {
                ratio(line.before.and_then(|cell| cell.ratio).map(|mean| mean.value))
            })
            .on_page(
                format!("{}: speeds", title(self.method)),
                "Speeds recomputed from the readings, ÷ what physics expects at each group’s own frequencies, depth and tension",
            )
    }

    fn hand_in(&self) -> PageTable {
        let sheets = |line: &ClassLine<'_>| {
            let (one, id, method) = (self.one, line.id, self.method.code());
            let sheets = self.nav.to("/sheets");
            format!("{sheets}&{one}={id}&method={method}")
        };
        Table::of(&self.lines)
            .name(capitalised(self.one), |line| line.name)
            .figure("Lessons", |line| line.now.lessons)
            .figure("Handed in", |line| {
                let share = of(line.now.handed_in);
                let says = format!("{share} handed in: sheets of {}", line.name);
                Cell::from(share).link_called(sheets(line), says)
            })
            .figure("Complete", |line| of(line.now.complete))
            .figure(format!("Handed in, {}", self.nav.name_before), |line| {
                of(line
                    .before
                    .map_or_else(Share::default, |cell| cell.handed_in))
            })
            .on_page(
                format!("{}: hand-in", title(self.method)),
                "Hand-in and completion. Complete: two rows or more, and an answer of their own",
            )
    }

    fn marks(&self) -> PageTable {
        Table::of(&self.lines)
            .name(capitalised(self.one), |line| line.name)
            .figure("Groups marked", |line| {
                line.now.marks.map_or(0, |marks| marks.groups)
            })
            .figure("Mean", |line| {
                mean_mark(line.now).map_or_else(dash, |[mean, ..]| format!("{mean:.0} %"))
            })
            .figure("95 % interval", |line| {
                mean_mark(line.now).map_or_else(String::new, |[_, low, high]| per_cents(low, high))
            })
            .on_page(
                format!("{}: marks", title(self.method)),
                "Marks as a share of full marks, of the groups that are marked on every point",
            )
    }

    fn ratios(&self) -> Option<Graph> {
        let mark = |cell: &cells::Cell| {
            let ratio = cell.ratio?;
            Some(LaneMark {
                is_wide: cell.counted <= FEW_GROUPS,
                ..LaneMark::new(ratio.value, Some((ratio.low, ratio.high)))
            })
        };
        let of = self.lines.iter();
        lanes(Lanes {
            id: format!("{}-ratios", self.method.code()),
            title: format!("{}: speed ÷ expected speed", title(self.method)),
            description: year::MEANS_SHOWN.to_owned(),
            quantity: "speed ÷ expected speed",
            lanes: of
                .map(|line| Lane::new(line.name, mark(line.now), line.before.and_then(mark)))
                .collect(),
            from_to: (0.98, 1.02),
            line: Some(1.0),
            key: year::CROSSES_AND_PHYSICS.to_owned(),
            open: year::open_circles_of_others(&self.nav.name_before),
        })
    }

    fn mark_graph(&self) -> Option<Graph> {
        let mark = |cell: &cells::Cell| {
            mean_mark(cell).map(|[value, low, high]| LaneMark::new(value, Some((low, high))))
        };
        let of = self.lines.iter();
        lanes(Lanes {
            id: format!("{}-marks", self.method.code()),
            title: format!("{}: marks", title(self.method)),
            description: year::MARKS_SHOWN.to_owned(),
            quantity: "marks ÷ full marks / %",
            lanes: of
                .map(|line| Lane::new(line.name, mark(line.now), None))
                .collect(),
            from_to: (0.0, 100.0),
            line: None,
            key: year::CROSSES_ARE_MARKS.to_owned(),
            open: String::new(),
        })
    }
}

fn dash() -> String {
    "–".to_owned()
}

/// Returns the mean mark with the ends of its interval, in per cent of full
/// marks.
fn mean_mark(cell: &cells::Cell) -> Option<[f64; 3]> {
    let mean = cell.marks?.mean?;
    let shares = [mean.value, mean.low.max(0.0), mean.high.min(1.0)];
    Some(shares.map(|share| 100.0 * share))
}
