//! The form of a scheme: a list of points as text, and what is wrong with it.

use analysis::method::Method;
use analysis::scheme::{Answer, Check, Judged, Level, Point};

use crate::db::scheme::{MarkingPoint, NewPoint};
use crate::form::Pairs;

/// Most points of a scheme.
pub(super) const MOST_POINTS: usize = 40;
/// Most marks of a point.
const MOST_MARKS: u32 = 20;

/// One point as typed.
#[derive(Clone, Debug, Default)]
pub(super) struct TypedPoint {
    /// Its key in the version before; blank for a new one.
    pub(super) key: String,
    pub(super) title: String,
    pub(super) guidance: String,
    pub(super) marks: String,
    /// `check:<code>`, `eye` or `eye:<answer>`.
    pub(super) judged: String,
    /// A line a level: `5-6: text`.
    pub(super) levels: String,
    pub(super) wrong: Wrong,
}

/// What is wrong with each box.
#[derive(Clone, Debug, Default)]
pub(super) struct Wrong {
    pub(super) title: Option<&'static str>,
    pub(super) guidance: Option<&'static str>,
    pub(super) marks: Option<&'static str>,
    pub(super) judged: Option<&'static str>,
    pub(super) levels: Option<&'static str>,
}

impl Wrong {
    /// The boxes that are wrong, by name, with why.
    pub(super) fn all(&self) -> Vec<(&'static str, &'static str)> {
        let all = [
            ("title", self.title),
            ("marks", self.marks),
            ("judged", self.judged),
            ("guidance", self.guidance),
            ("levels", self.levels),
        ];
        all.into_iter()
            .filter_map(|(name, why)| Some((name, why?)))
            .collect()
    }
}

/// The choices of how a point is judged: what a form calls it, and words.
pub(super) fn choices(method: Method) -> Vec<(String, String)> {
    let checks = Check::ALL.into_iter().filter(|check| check.is_for(method));
    let checks = checks.map(|check| {
        (
            format!("check:{}", check.code()),
            format!("by check: {}", crate::words::check::title(check)),
        )
    });
    let answers = Answer::ALL.into_iter().map(|answer| {
        (
            format!("eye:{}", answer.code()),
            format!("by eye: {}", crate::words::check::answer(answer)),
        )
    });
    let paper = ("eye".to_owned(), "by eye: on paper".to_owned());
    checks.chain(answers).chain([paper]).collect()
}

/// The points of a version, ready to be typed over.
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
            title: point.point.title.clone(),
            guidance: point.point.guidance.clone(),
            marks: point.point.marks.to_string(),
            judged: match point.point.judged {
                Judged::ByCheck(check) => format!("check:{}", check.code()),
                Judged::ByEye(Some(answer)) => format!("eye:{}", answer.code()),
                Judged::ByEye(None) => "eye".to_owned(),
            },
            levels: levels.collect::<Vec<_>>().join("\n"),
            wrong: Wrong::default(),
        }
    });
    typed.collect()
}

/// The points that a form holds, in the order of the page.
pub(super) fn read(pairs: &Pairs) -> Vec<TypedPoint> {
    let count = pairs.get("points").parse::<usize>().unwrap_or(0);
    let point = |at: usize| {
        let text = |name: &str| pairs.get(&format!("p{at}.{name}")).replace("\r\n", "\n");
        TypedPoint {
            key: text("key"),
            title: text("title"),
            guidance: text("guidance"),
            marks: text("marks"),
            judged: text("judged"),
            levels: text("levels"),
            wrong: Wrong::default(),
        }
    };
    (0..count.min(MOST_POINTS)).map(point).collect()
}

/// The points where nothing is wrong; else what is wrong stands with each.
pub(super) fn check(typed: &mut [TypedPoint], method: Method) -> Option<Vec<NewPoint>> {
    let mut points = Vec::new();
    for point in typed.iter_mut() {
        let key = point.key.parse().ok();
        match read_point(point, method) {
            Ok(point) => points.push(NewPoint { key, point }),
            Err(wrong) => point.wrong = wrong,
        }
    }
    (points.len() == typed.len()).then_some(points)
}

fn read_point(typed: &TypedPoint, method: Method) -> Result<Point, Wrong> {
    let mut wrong = Wrong::default();
    let title = typed.title.trim().to_owned();
    if title.is_empty() {
        wrong.title = Some("Say what the point asks.");
    } else if title.chars().count() > 120 {
        wrong.title = Some("Use at most 120 characters.");
    }
    let guidance = typed.guidance.trim().to_owned();
    if guidance.chars().count() > 2000 {
        wrong.guidance = Some("Use at most 2000 characters.");
    }
    let marks = typed.marks.trim().parse().ok();
    let marks = marks.filter(|marks| (1..=MOST_MARKS).contains(marks));
    if marks.is_none() {
        wrong.marks = Some("Type a whole number from 1 to 20.");
    }
    let judged = judged(&typed.judged, method);
    if judged.is_none() {
        wrong.judged = Some("Choose how it is judged.");
    }
    let levels = levels(&typed.levels, marks.unwrap_or(MOST_MARKS));
    if levels.is_none() {
        wrong.levels = Some(
            "Write one level a line, the best first, as “5-6: what it is like”. Levels stay within the marks of the point and do not overlap.",
        );
    }
    match (marks, judged, levels) {
        (Some(marks), Some(judged), Some(levels)) if wrong.all().is_empty() => Ok(Point {
            title,
            guidance,
            marks,
            judged,
            levels,
        }),
        _ => Err(wrong),
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

/// Levels, best first; `None` where a line is none, or two overlap.
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
