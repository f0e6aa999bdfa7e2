//! What is written into the page.

use server::chart::sheet_graph;

use super::{ripples, row, sheet, sheet_at};

#[test]
fn a_small_graph_is_written_as_it_was() {
    let mut small = sheet(vec![row("1", (1.0, 24.0)), row("2", (2.0, 49.0))]);
    small.rows[1].wavelength_resolution = 0.05;
    small.rows[0].left_out = true;
    insta::assert_snapshot!(sheet_graph("graph", "Bench 4", &small, None).to_string());
}

#[test]
fn the_text_alternative_is_tied_to_the_drawing_by_the_prefix() {
    let text = sheet_graph("bench-4", "Bench 4", &ripples(), None).to_string();
    assert!(text.contains(r#"role="img" aria-labelledby="bench-4-title bench-4-desc""#));
    assert!(text.contains(r#"<title id="bench-4-title">Bench 4</title>"#));
    assert!(text.contains(r#"<desc id="bench-4-desc">f against 1/λ for 6 rows"#));
}

#[test]
fn nothing_needs_a_softer_content_security_policy() {
    let text = super::with_curve(&ripples()).to_string();
    for word in [" style=", "<style", "<script", "http", "url("] {
        assert!(!text.contains(word), "{word} in {text}");
    }
}

#[test]
fn what_people_type_is_escaped() {
    let mut sheet = sheet_at(&[(42.0, 10.0), (63.0, 15.0)]);
    sheet.rows[0].label = "<b>&".to_owned();
    sheet.rows[0].left_out = true;
    let graph = sheet_graph("g", "<i>4", &sheet, None);
    let text = graph.to_string() + &graph.points.as_ref().unwrap().to_string();
    assert!(!text.contains("<b>") && !text.contains("<i>"), "{text}");
    assert!(text.contains("row &#60;b&#62;&#38;"), "{text}");
}
