use crate::support::{Group, Lesson, Part, Reply, teacher};

/// Student's t for 95 % and four degrees of freedom, from any printed table.
const T4: f64 = 2.776;

/// Six groups, one of which measured something else.
const LEVELS: [f64; 6] = [0.97, 0.99, 1.0, 1.01, 0.70, 1.03];

fn group(level: f64) -> Group {
    Group::CAREFUL.level(level)
}

/// The six groups hand in.
async fn class_of_six() -> Lesson {
    let at = Lesson::of_groups("ripple-tank", "6").await;
    for (level, label) in LEVELS.into_iter().zip(["A", "B", "C", "D", "E", "F"]) {
        at.hands_in(&group(level), label).await;
    }
    at
}

/// The gradient through the origin of f against 1/λ in m/s, and how far its
/// 95 % interval reaches to either side.
fn gradient(points: &[(f64, f64)]) -> (f64, f64) {
    let xy: f64 = points.iter().map(|(f, wavelength)| f / wavelength).sum();
    let xx: f64 = points
        .iter()
        .map(|(_, wavelength)| wavelength.powi(-2))
        .sum();
    let slope = xy / xx;
    let squares: f64 = points
        .iter()
        .map(|(f, wavelength)| (f - slope / wavelength).powi(2))
        .sum();
    let df = points.len() as f64 - 1.0;
    (slope, T4 * (squares / df / xx).sqrt())
}

/// The speed (m/s) of ripples on clean water of 20 °C (72.74 mN/m), 5 mm deep, by halving
/// until the dispersion relation holds.
fn clean_water(frequency: f64) -> f64 {
    let angular = 2.0 * std::f64::consts::PI * frequency;
    let (mut low, mut high) = (1.0_f64, 10_000.0_f64);
    for _ in 0..100 {
        let k = f64::midpoint(low, high);
        let square = (9.807 * k + 0.07274 / 998.2 * k.powi(3)) * (0.005 * k).tanh();
        if square > angular * angular {
            high = k;
        } else {
            low = k;
        }
    }
    angular / low
}

/// The row of a group in the table of groups.
fn group_row(page: &Reply, label: &str) -> Part {
    let mut rows = page.section("groups").all("tbody tr").into_iter();
    let of = rows.find(|row| row.at("th a").words() == label);
    of.unwrap()
}

fn mean_and_sd(values: &[f64]) -> (f64, f64) {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let squares: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
    (mean, (squares / (count - 1.0)).sqrt())
}

#[tokio::test]
async fn slip_is_named_with_its_group_and_its_sheet() {
    let mut at = Lesson::new().await;
    at.hands_in(&Group::FORGETFUL, "A").await;
    at.hands_in(&Group::CAREFUL, "B").await;
    at.hands_in(&Group::FORGETFUL, "D").await;
    let page = at.page("/summary").await;
    assert_eq!(
        page.count("wavelength, every row: enlargement left out"),
        2,
        "{}",
        page.text
    );
    let slips = page.at("ol.slips");
    assert_eq!(slips.all(".slip.shown").len(), 1, "{}", slips.html());
    let links = slips.all("a[href*='/sheets/']");
    let links: Vec<_> = links.iter().map(|link| link.attr("href")).collect();
    assert_eq!(
        links,
        ["A", "D"].map(|of| format!("{}/sheets/{of}", at.set))
    );
    slips
        .says("The wavelength was not divided by the enlargement")
        .says("2 groups:");
}

#[tokio::test]
async fn figures_of_each_group_are_those_of_its_readings() {
    let mut at = class_of_six().await;
    let page = at.page("/summary").await;
    for (level, label) in LEVELS.into_iter().zip(["A", "B", "C", "D", "E", "F"]) {
        let row = group_row(&page, label).cells();
        let points = group(level).points();
        let (speed, reach) = gradient(&points);
        let expected: Vec<_> = points
            .iter()
            .map(|(f, _)| (*f, clean_water(*f) / f))
            .collect();
        let off = 100.0 * (speed / gradient(&expected).0 - 1.0);
        let against = if off < 0.0 {
            format!("{:.0} % below", -off)
        } else {
            format!("{off:.0} % above")
        };
        for text in [
            format!("{speed:.3}"),
            format!("{:.3} to {:.3}", speed - reach, speed + reach),
            against,
        ] {
            let is_there = row.iter().any(|cell| cell.starts_with(&text));
            assert!(is_there, "{text} for {label} in {row:?}");
        }
    }
}

#[tokio::test]
async fn group_that_does_not_belong_is_named_and_left_aside() {
    let mut at = class_of_six().await;
    let page = at.page("/summary").await;
    assert_eq!(page.count("class=\"outlier\""), 1);
    group_row(&page, "E").says("does not belong with the class");
    let belonging = LEVELS.into_iter().filter(|level| *level > 0.9);
    let speeds: Vec<_> = belonging
        .map(|level| gradient(&group(level).points()).0)
        .collect();
    let (mean, sd) = mean_and_sd(&speeds);
    let reach = T4 * sd / 5.0_f64.sqrt();
    page.says("6 of 6 groups have handed in")
        .says("group E: left aside in the mean")
        .says(&format!("{mean:.3} m/s; 95 % interval"))
        .says(&format!(
            "95 % interval: {:.3} to {:.3} m/s",
            mean - reach,
            mean + reach
        ))
        .says(&format!("standard deviation {sd:.3} m/s"));
}

#[tokio::test]
async fn repeatability_is_the_scatter_of_rows_about_their_own_sheets() {
    let mut at = class_of_six().await;
    let page = at.page("/summary").await;
    let squares: f64 = LEVELS
        .into_iter()
        .map(|level| {
            let points = group(level).points();
            let levels: Vec<_> = points
                .iter()
                .map(|(f, wavelength)| (f * wavelength / clean_water(*f)).ln())
                .collect();
            4.0 * mean_and_sd(&levels).1.powi(2)
        })
        .sum();
    let pooled: f64 = 100.0 * (squares / 24.0).sqrt();
    page.says(&format!("rows differ by about {pooled:.2} %"));
}

#[tokio::test]
async fn saved_sheet_is_shown_but_not_counted() {
    let mut at = Lesson::new().await;
    let summary = at.url("/summary");
    let (mut pupil, url) = at.saves(&Group::FORGETFUL, "A").await;
    let (speed, _) = gradient(&Group::FORGETFUL.points());
    at.teacher
        .get(&summary)
        .await
        .says("0 of 4 groups have handed in")
        .says("When groups hand in, their speeds are compared here.")
        .says("None that the groups’ own figures show.")
        .says("saved at 10:42, not handed in")
        .says(&format!("<td class=\"num\">{speed:.3}</td>"))
        .says("wavelength, every row: enlargement left out");
    Group::FORGETFUL
        .sends_again("hand_in", &mut pupil, &url)
        .await;
    at.teacher
        .get(&summary)
        .await
        .says("1 of 4 groups has handed in")
        .says("1 group:")
        .says(&format!("{speed:.3} m/s, over 1 group"))
        .says("(four groups are needed to tell)");
}

#[tokio::test]
async fn row_that_does_not_belong_is_said_beside_its_group() {
    let mut at = Lesson::new().await;
    let odd = Group::CAREFUL.odd(2, 1.3);
    at.hands_in(&odd, "A").await;
    at.hands_in(&Group::CAREFUL, "B").await;
    let page = at.page("/summary").await;
    assert_eq!(page.count("not belong with the others.</p>"), 1);
    group_row(&page, "A").says("Row 3 does not belong with the others.");
}

#[tokio::test]
async fn class_set_without_work_has_a_summary() {
    let mut teacher = teacher().await;
    for method in ["ripple-tank", "string-loops"] {
        let (set, _) = teacher.make_class_set(method).await;
        teacher
            .opens(&format!("{set}/summary"))
            .await
            .says("0 of 4 groups have handed in")
            .says("nothing yet");
    }
}
