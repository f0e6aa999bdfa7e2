//! The form of a scheme: a list of points as text, and what is wrong with it.

use analysis::method::Method;
use analysis::scheme::{Answer, Check, Judged, Level, Point};

use crate::db::scheme::{MarkingPoint, NewPoint};
use crate::web::form::{Pairs, TypedText};
use crate::words::check;
use crate::words::refusal;

/// Most points of a scheme.
pub(super) const MOST_POINTS: usize = 40;
/// Most marks of a point.
const MOST_MARKS: u32 = 20;

#[derive(Clone, Debug, Default)]
pub(super) struct TypedPoint {
    /// Its key in the version before; blank for a new one.
    pub(super) key: String,
    pub(super) title: TypedText,
    pub(super) guidance: TypedText,
    pub(super) marks: TypedText,
    /// `check:<code>`, `eye` or `eye:<answer>`.
    pub(super) judged: TypedText,
    /// A line a level: `5-6: text`.
    pub(super) levels: TypedText,
}

impl TypedPoint {
    /// Returns the boxes that are wrong, by name, with why.
    pub(super) fn wrong(&self) -> impl Iterator<Item = (&'static str, &str)> {
        let boxes = [
            ("title", &self.title),
            ("marks", &self.marks),
            ("judged", &self.judged),
            ("guidance", &self.guidance),
            ("levels", &self.levels),
        ];
        let wrong = boxes.into_iter();
        wrong.filter_map(|(name, typed)| Some((name, typed.wrong.as_deref()?)))
    }
}

/// Returns the choices of how a point is judged: what a form calls it, and
/// words.
pub(super) fn choices(method: Method) -> Vec<(String, String)> {
    let checks = Check::ALL.into_iter().filter(|check| check.is_for(method));
    let checks = checks.map(|check| (format!("check:{}", check.code()), Judged::ByCheck(check)));
    let answers = Answer::ALL.map(|answer| {
        (
            format!("eye:{}", answer.code()),
            Judged::ByEye(Some(answer)),
        )
    });
    let paper = ("eye".to_owned(), Judged::ByEye(None));
    let all = checks.chain(answers).chain([paper]);
    all.map(|(value, judged)| (value, check::choice(judged)))
        .collect()
}

/// Returns the points of a version, ready to be typed over.
pub(super) fn typed(points: &[MarkingPoint]) -> Vec<TypedPoint> {
    let typed = points.iter().map(|point| {
        let levels = point.point.levels.iter().map(|level| {
            if level.from == level.to {
                format!("{}: {}", level.from, level.says)
            } else {
                format!("{}-{}: {}", level.from, level.to, level.says)
            }
        });
        TypedPoint {
            key: point.key.to_string(),
            title: TypedText::new(&point.point.title),
            guidance: TypedText::new(&point.point.guidance),
            marks: TypedText::new(point.point.marks.to_string()),
            judged: TypedText::new(match point.point.judged {
                Judged::ByCheck(check) => format!("check:{}", check.code()),
                Judged::ByEye(Some(answer)) => format!("eye:{}", answer.code()),
                Judged::ByEye(None) => "eye".to_owned(),
            }),
            levels: TypedText::new(levels.collect::<Vec<_>>().join("\n")),
        }
    });
    typed.collect()
}

/// Returns the points that a form holds, in the order of the page.
pub(super) fn read(pairs: &Pairs) -> Vec<TypedPoint> {
    let count = pairs.get("points").parse::<usize>().unwrap_or(0);
    let point = |at: usize| {
        let text = |name: &str| pairs.get(&format!("p{at}.{name}")).replace("\r\n", "\n");
        let typed = |name| TypedText::new(text(name));
        TypedPoint {
            key: text("key"),
            title: typed("title"),
            guidance: typed("guidance"),
            marks: typed("marks"),
            judged: typed("judged"),
            levels: typed("levels"),
        }
    };
    (0..count.min(MOST_POINTS)).map(point).collect()
}

/// Returns the points where nothing is wrong; else what is wrong stands with
/// each.
pub(super) fn check(typed: &mut [TypedPoint], method: Method) -> Option<Vec<NewPoint>> {
    let read = typed.iter_mut().map(|point| {
        let key = point.key.parse().ok();
        let point = point.check(method)?;
        Some(NewPoint { key, point })
    });
    let read: Vec<Option<NewPoint>> = read.collect();
    read.into_iter().collect()
}

impl TypedPoint {
    fn check(&mut self, method: Method) -> Option<Point> {
        let title = self.title.check(|text| match text.chars().count() {
            0 => Err(refusal::WHAT_POINT_ASKS),
            1..=120 => Ok(text.to_owned()),
            _ => Err(refusal::AT_MOST_120),
        });
        let guidance = self.guidance.check(|text| match text.chars().count() {
            0..=2000 => Ok(text.to_owned()),
            _ => Err(refusal::AT_MOST_2000),
        });
        let marks = self.marks.check(|text| {
            let marks = text.parse().ok();
            let marks = marks.filter(|marks| (1..=MOST_MARKS).contains(marks));
            marks.ok_or(refusal::ONE_TO_20)
        });
        let judged = self
            .judged
            .check(|text| judged(text, method).ok_or(refusal::HOW_JUDGED));
        let levels = self
            .levels
            .check(|text| levels(text, marks.unwrap_or(MOST_MARKS)).ok_or(refusal::LEVELS));
        Some(Point {
            title: title?,
            guidance: guidance?,
            marks: marks?,
            judged: judged?,
            levels: levels?,
        })
    }
}

fn judged(text: &str, method: Method) -> Option<Judged> {
    match text.split_once(':') {
        Some(("check", code)) => {
            let check = Check::from_code(code).filter(|check| check.is_for(method))?;
            Some(Judged::ByCheck(check))
        }
        Some(("eye", code)) => Some(Judged::ByEye(Some(Answer::from_code(code)?))),
        None if text == "eye" => Some(Judged::ByEye(None)),
        _ => None,
    }
}

/// Levels, best first. Returns `None` when a line is none, or two overlap.
fn levels(text: &str, most: u32) -> Option<Vec<Level>> {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let mut levels: Vec<Level> = Vec::new();
    for line in lines {
        let (band, says) = line.split_once(':')?;
        let (from, to) = band.split_once(['-', '–']).unwrap_or((band, band));
        let (from, to) = (from.trim().parse().ok()?, to.trim().parse().ok()?);
        let is_below = levels.last().is_none_or(|above: &Level| to < above.from);
        if from > to || to > most || !is_below || says.trim().is_empty() {
            return None;
        }
        levels.push(Level {
            from,
            to,
            says: says.trim().to_owned(),
        });
    }
    Some(levels)
}
