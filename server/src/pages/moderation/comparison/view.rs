//! A comparison as one reader may see it.

use std::collections::HashMap;

use analysis::moderation::comparison::{Agreement, FEWEST, Largest, Person, Point, Verdict};

use super::Reader;
use super::figures::{self, Figure, marks, of_all, plain, range};
use crate::chart::difference::{Level, Sheet};
use crate::chart::{Graph, difference_plot};
use crate::db::round::Round;
use crate::pages::moderation::called_in_round;
use crate::report::moderation::comparison::Compared;
use crate::report::moderation::pairs::Pair;
use crate::report::moderation::verdict::{Whose, one_colleague, words};
use crate::report::number::signed;

/// Makes the parts of a page, leaving out what its reader may not see.
pub(super) struct View<'a> {
    compared: &'a Compared,
    round: &'a Round,
    reader: Reader,
    names: HashMap<i64, String>,
}

/// Statistics with what they come to.
pub(super) struct Card {
    /// Of its element on the page.
    pub(super) id: String,
    /// Whose marks, or which point.
    pub(super) name: String,
    /// What the figures are of: `sheets that Ms Fell marked first`.
    pub(super) of: String,
    pub(super) n: usize,
    pub(super) mean: String,
    pub(super) interval: String,
    pub(super) size: String,
    pub(super) within: String,
    /// What they come to, in sentences.
    pub(super) says: Vec<String>,
    pub(super) figures: Vec<Figure>,
    /// Whether limits of agreement are withheld because of few sheets.
    pub(super) is_small: bool,
    /// The largest difference, with a link to its sheet where the reader may
    /// see which it is.
    pub(super) largest: String,
    pub(super) largest_link: Option<SheetLink>,
    /// The sheets of it that the reader may name.
    pub(super) sheets: Vec<SheetLine>,
}

/// A point: its figures, and its part of all that is in dispute.
pub(super) struct PointLine {
    pub(super) card: Card,
    pub(super) most: i64,
    pub(super) differing: String,
    pub(super) differs: bool,
    pub(super) part: String,
    /// How many more sheets differ than are named.
    pub(super) others: usize,
}

/// Where both marks of a sheet stand.
pub(super) struct SheetLink {
    pub(super) url: String,
    pub(super) called: String,
}

/// Two marks of one sheet.
pub(super) struct SheetLine {
    /// `None` where the reader may not see which it is.
    pub(super) link: Option<SheetLink>,
    pub(super) first: i64,
    pub(super) second: i64,
    pub(super) mean: String,
    pub(super) difference: String,
    pub(super) is_within: bool,
}

impl<'a> View<'a> {
    pub(super) fn of(compared: &'a Compared, round: &'a Round, reader: Reader) -> Self {
        Self {
            names: compared.names(),
            compared,
            round,
            reader,
        }
    }

    /// The whole sample.
    pub(super) fn whole(&self) -> Option<Card> {
        let found = &self.compared.comparison;
        let agreement = found.whole.as_ref()?;
        Some(Card {
            of: "all sheets".to_owned(),
            says: sentences(&found.verdicts, agreement, Whose::Everyone),
            figures: figures::of(agreement),
            ..self.card(agreement)
        })
    }

    /// The coefficients of the whole sample; none of few sheets.
    pub(super) fn coefficients(&self) -> Vec<Figure> {
        let found = &self.compared.comparison;
        let is_enough = found.sheets.len() >= FEWEST;
        let figures = is_enough.then(|| figures::of_round(found.coefficients));
        figures.into_iter().flatten().collect()
    }

    /// First markers, by name.
    pub(super) fn first_markers(&self) -> Vec<Card> {
        self.people(&self.compared.comparison.first_markers, Whose::First)
    }

    /// Second markers, by name.
    pub(super) fn second_markers(&self) -> Vec<Card> {
        self.people(&self.compared.comparison.second_markers, Whose::Second)
    }

    fn people(&self, people: &[Person], whose: Whose) -> Vec<Card> {
        let seen = people
            .iter()
            .filter(|line| self.reader.may_see(line.person));
        let mut cards: Vec<Card> = seen.map(|line| self.person(line, whose)).collect();
        cards.sort_by(|a, b| a.name.cmp(&b.name));
        cards
    }

    fn person(&self, line: &Person, whose: Whose) -> Card {
        let colleagues = line.colleagues.iter().map(|person| self.name(*person));
        let mut says = sentences(&line.verdicts, &line.agreement, whose);
        says.extend(one_colleague(&colleagues.collect::<Vec<_>>(), whose));
        let name = self.name(line.person);
        let (id, of) = match whose {
            Whose::Second => ("second", format!("sheets that {name} marked a second time")),
            _ => ("first", format!("sheets that {name} marked first")),
        };
        let pairs = self.compared.pairs.sheets.iter();
        let theirs = pairs.filter(|pair| is_of(pair, line.person, whose));
        Card {
            id: format!("{id}-{}", line.person),
            name,
            of,
            says,
            figures: figures::of(&line.agreement),
            sheets: theirs.filter_map(|pair| self.totals(pair)).collect(),
            ..self.card(&line.agreement)
        }
    }

    /// The points, those that cause disagreement first.
    pub(super) fn points(&self) -> Vec<PointLine> {
        let points = self.compared.comparison.points.iter();
        points.map(|found| self.point_line(found)).collect()
    }

    fn point_line(&self, found: &Point) -> PointLine {
        let agreement = &found.agreement;
        let name = self.point(found.point);
        let differing = self.compared.differing(found.point);
        let seen = differing
            .iter()
            .filter(|(pair, ..)| self.reader.may_name(pair));
        let sheets: Vec<SheetLine> = seen
            .map(|(pair, first, second)| {
                let is_within = (second - first).abs() <= self.round.tolerance_point;
                self.line(pair, *first, *second, is_within)
            })
            .collect();
        PointLine {
            most: found.most,
            differing: format!("{} of {}", found.differing, agreement.n),
            differs: found.differing > 0,
            part: found
                .part
                .map_or_else(|| "–".to_owned(), |part| format!("{:.0} %", 100.0 * part)),
            others: differing.len() - sheets.len(),
            card: Card {
                id: format!("point-{}", found.point),
                of: format!("point {name}"),
                name,
                figures: figures::of(agreement),
                sheets,
                is_small: false,
                ..self.card(agreement)
            },
        }
    }

    /// What every card has; the rest blank.
    fn card(&self, agreement: &Agreement) -> Card {
        Card {
            id: String::new(),
            name: String::new(),
            of: String::new(),
            n: agreement.n,
            mean: marks(agreement.mean.value),
            interval: range(agreement.mean.interval95, marks),
            size: plain(agreement.mean_absolute),
            within: of_all(agreement.within, agreement.n),
            says: Vec::new(),
            figures: Vec::new(),
            is_small: agreement.n < FEWEST,
            largest: signed(agreement.largest.difference, 0),
            largest_link: self.largest(agreement.largest),
            sheets: Vec::new(),
        }
    }

    fn largest(&self, largest: Largest) -> Option<SheetLink> {
        let pair = self.compared.pair(largest.sheet)?;
        self.reader.may_name(pair).then(|| self.link(pair))
    }

    /// Every sheet with both totals: those with a name in the order of
    /// marking, then the others by their marks, which tells nothing of whose
    /// they are.
    pub(super) fn sheets(&self) -> Vec<SheetLine> {
        let pairs = self.compared.pairs.sheets.iter();
        let mut lines: Vec<SheetLine> = pairs.filter_map(|pair| self.totals(pair)).collect();
        lines.sort_by_key(|line| place(line.link.is_some(), line.first, line.second));
        lines
    }

    fn totals(&self, pair: &Pair) -> Option<SheetLine> {
        let (first, second) = (pair.first_total()?, pair.second_total()?);
        let is_within = (second - first).abs() <= self.round.tolerance_total;
        Some(self.line(pair, first, second, is_within))
    }

    fn line(&self, pair: &Pair, first: i64, second: i64, is_within: bool) -> SheetLine {
        SheetLine {
            link: self.reader.may_name(pair).then(|| self.link(pair)),
            first,
            second,
            mean: format!("{:.1}", (first + second) as f64 / 2.0),
            difference: signed((second - first) as f64, 0),
            is_within,
        }
    }

    fn link(&self, pair: &Pair) -> SheetLink {
        let (round, sheet) = (self.round.id, pair.sheet.id);
        SheetLink {
            url: format!("/moderation/{round}/settle#sheet-{sheet}"),
            called: called_in_round(&pair.sheet),
        }
    }

    /// The difference plot; `None` where there is nothing to draw.
    pub(super) fn plot(&self) -> Option<Graph> {
        let found = &self.compared.comparison;
        let whole = found.whole.as_ref()?;
        let mut totals: Vec<_> = found
            .sheets
            .iter()
            .filter_map(|both| Some((both, self.compared.pair(both.sheet)?)))
            .collect();
        totals
            .sort_by_key(|(both, pair)| place(self.reader.may_name(pair), both.first, both.second));
        let sheets = totals.into_iter().map(|(both, pair)| {
            let name = format!("{} {}", pair.sheet.class_name, pair.sheet.label);
            Sheet {
                name: if self.reader.may_name(pair) {
                    name
                } else {
                    String::new()
                },
                mean: both.mean(),
                difference: both.difference() as f64,
                is_within: both.is_within,
            }
        });
        let level = |name, at, class| Level { name, at, class };
        let mut levels = vec![level("mean", whole.mean.value, "fit")];
        if let Some(limits) = whole.limits {
            levels.push(level("upper limit", limits.upper.value, "expected"));
            levels.push(level("lower limit", limits.lower.value, "expected"));
        }
        let versions = self.compared.pairs.points.values();
        let most = versions.map(|points| points.iter().map(|point| point.point.marks).sum::<u32>());
        difference_plot(
            "differences",
            &sheets.collect::<Vec<_>>(),
            &levels,
            f64::from(most.max()?),
        )
    }

    /// These sheets as the reader may see them: by name, and how many others.
    pub(super) fn called(&self, sheets: &[i64]) -> Vec<String> {
        let pairs = sheets.iter().filter_map(|sheet| self.compared.pair(*sheet));
        let (named, others): (Vec<&Pair>, Vec<&Pair>) =
            pairs.partition(|pair| self.reader.may_name(pair));
        let mut called: Vec<String> = named
            .iter()
            .map(|pair| called_in_round(&pair.sheet))
            .collect();
        match others.len() {
            0 => {}
            1 => called.push("a sheet of colleagues".to_owned()),
            n => called.push(format!("{n} sheets of colleagues")),
        }
        called
    }

    /// The name of a person.
    pub(super) fn name(&self, person: i64) -> String {
        self.names.get(&person).cloned().unwrap_or_default()
    }

    /// A point as markers call it: `4 The enlargement is used`.
    pub(super) fn point(&self, key: i64) -> String {
        let point = self.compared.point(key);
        point.map_or_else(String::new, |point| {
            format!("{} {}", point.number, point.point.title)
        })
    }
}

/// Where a sheet with these totals comes: those with a name first, as they
/// are; the others by their marks.
fn place(has_name: bool, first: i64, second: i64) -> (bool, i64, i64) {
    match has_name {
        true => (false, 0, 0),
        false => (true, first + second, first),
    }
}

/// Whether a sheet is in the lines of a person.
fn is_of(pair: &Pair, person: i64, whose: Whose) -> bool {
    match whose {
        Whose::Second => pair.sheet.marker_id.is_some_and(|id| id.0 == person),
        _ => {
            let mut first = pair.first.iter().flatten();
            first.all(|mark| mark.staff_id.0 == person)
        }
    }
}

/// What figures come to.
pub(super) fn sentences(verdicts: &[Verdict], agreement: &Agreement, whose: Whose) -> Vec<String> {
    let verdicts = verdicts.iter();
    verdicts
        .map(|verdict| words(verdict, agreement, whose))
        .collect()
}
