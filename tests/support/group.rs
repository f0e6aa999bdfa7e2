//! A group at the ripple tank with a calculator of its own: none of the
//! program's arithmetic is used here, nor the simulator's, whose readings
//! scatter. Every figure is known beforehand, so that a test can say by hand
//! what a page must show.

use super::{Browser, TestApp, pairs};

/// Frequency in Hz, waves in the span, span on the screen in cm.
pub(crate) const ROWS: [(f64, f64, f64); 5] = [
    (15.0, 8.0, 22.4),
    (10.0, 6.0, 24.7),
    (20.0, 9.0, 19.6),
    (25.0, 10.0, 18.1),
    (30.0, 10.0, 15.7),
];
/// Lengths of the known object on the screen and in truth, in cm.
const SCALE: (f64, f64) = (14.0, 8.0);

/// How the group measures and works.
#[derive(Clone, Debug)]
pub(crate) struct Group {
    /// Its spans as multiples of those in [`ROWS`].
    pub(crate) level: f64,
    /// A row (from 0) whose span is out by a factor.
    pub(crate) odd: Option<(usize, f64)>,
    /// Whether it forgets to divide by the enlargement.
    pub(crate) leaves_scale_out: bool,
    /// What it writes for its kit.
    pub(crate) kit: &'static str,
}

impl Group {
    /// A group that makes no slip.
    pub(crate) const CAREFUL: Self = Self {
        level: 1.0,
        odd: None,
        leaves_scale_out: false,
        kit: "",
    };
    /// A group that leaves the enlargement out on every row.
    pub(crate) const FORGETFUL: Self = Self {
        leaves_scale_out: true,
        ..Self::CAREFUL
    };

    /// The group, with spans so many times the usual.
    pub(crate) const fn level(self, level: f64) -> Self {
        Self { level, ..self }
    }

    /// The group at a kit.
    pub(crate) const fn kit(self, kit: &'static str) -> Self {
        Self { kit, ..self }
    }

    /// The group with the span of one row (from 0) out by a factor.
    pub(crate) const fn odd(self, row: usize, factor: f64) -> Self {
        let odd = Some((row, factor));
        Self { odd, ..self }
    }

    /// Frequency in Hz and wavelength on the water in m of each row, from what
    /// the group typed.
    pub(crate) fn points(&self) -> Vec<(f64, f64)> {
        let rows = ROWS.iter().enumerate();
        rows.map(|(at, (f, waves, _))| {
            let span: f64 = self.span(at).parse().unwrap();
            (*f, span / waves * SCALE.1 / SCALE.0 / 100.0)
        })
        .collect()
    }

    /// The distance that row `at` is typed with, in cm.
    fn span(&self, at: usize) -> String {
        let factor = match self.odd {
            Some((odd, factor)) if odd == at => factor,
            _ => 1.0,
        };
        format!("{:.1}", ROWS[at].2 * self.level * factor)
    }

    /// The whole sheet as typed: each figure follows from the one before.
    pub(crate) fn boxes(&self) -> Vec<(String, String)> {
        let mut boxes = Boxes(Vec::new());
        boxes.put("kit", self.kit);
        boxes.put("w.scale_true", "8.0");
        boxes.put("w.scale_image", "14.0");
        boxes.put("w.magnification", "1.75");
        for (box_name, unit) in [
            ("scale_true", "cm"),
            ("scale_image", "cm"),
            ("span", "cm"),
            ("wavelength", "cm"),
            ("reciprocal", "1/m"),
            ("speed", "m/s"),
        ] {
            boxes.put(&format!("unit.{box_name}"), unit);
        }
        for (at, (f, waves, _)) in ROWS.iter().enumerate() {
            let row = at + 1;
            let span: f64 = self.span(at).parse().unwrap();
            let enlargement = if self.leaves_scale_out { 1.0 } else { 1.75 };
            let wavelength = span / waves / enlargement;
            boxes.put(&format!("r{row}.dial"), &f.to_string());
            boxes.put(&format!("r{row}.first_crest"), "0");
            boxes.put(&format!("r{row}.last_crest"), &waves.to_string());
            boxes.put(&format!("r{row}.span"), &self.span(at));
            boxes.put(&format!("r{row}.wavelength"), &format!("{wavelength:.2}"));
            boxes.put(
                &format!("r{row}.reciprocal"),
                &format!("{:.1}", 100.0 / wavelength),
            );
            boxes.put(
                &format!("r{row}.speed"),
                &format!("{:.3}", f * wavelength / 100.0),
            );
        }
        boxes.0
    }

    /// Chooses a bench and sends the sheet with this button; the browser and
    /// the address of the sheet.
    pub(crate) async fn sends(
        &self,
        act: &str,
        app: &TestApp,
        code: &str,
        label: &str,
    ) -> (Browser, String) {
        let mut pupil = app.browser();
        pupil.take_bench(code, label).await;
        let url = format!("/c/{code}/{label}");
        self.sends_again(act, &mut pupil, &url).await;
        (pupil, url)
    }

    /// Sends the sheet from a bench that was chosen before.
    pub(crate) async fn sends_again(&self, act: &str, pupil: &mut Browser, url: &str) {
        pupil.keeps(url, act, &pairs(&self.boxes())).await;
    }
}

struct Boxes(Vec<(String, String)>);

impl Boxes {
    fn put(&mut self, name: &str, text: &str) {
        self.0.push((name.to_owned(), text.to_owned()));
    }
}
