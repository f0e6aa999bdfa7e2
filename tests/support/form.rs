//! Forms as browsers send them.

/// The form of a new class set of four groups.
pub(crate) const CLASS_SET: [(&str, &str); 4] = [
    ("class", "10B/Ph2"),
    ("method", "ripple-tank"),
    ("date", "2026-11-24"),
    ("groups", "4"),
];

/// A form with another text in one of its boxes.
pub(crate) fn but<'a, const N: usize>(
    boxes: [(&'a str, &'a str); N],
    name: &str,
    text: &'a str,
) -> [(&'a str, &'a str); N] {
    boxes.map(|(of, typed)| (of, if of == name { text } else { typed }))
}

/// Boxes as a form takes them.
pub(crate) fn pairs<N: AsRef<str>, V: AsRef<str>>(boxes: &[(N, V)]) -> Vec<(&str, &str)> {
    let boxes = boxes.iter();
    boxes.map(|(n, v)| (n.as_ref(), v.as_ref())).collect()
}

pub(super) const BOUNDARY: &str = "--------crest";

/// A form as browsers send it where it has a box for a file; a box in which
/// none was chosen is sent empty.
pub(super) fn multipart(pairs: &[(&str, &str)], file: Option<&[u8]>) -> Vec<u8> {
    let mut body = Vec::new();
    for (name, value) in pairs {
        let head = format!(
            "--{BOUNDARY}\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n"
        );
        body.extend_from_slice(head.as_bytes());
    }
    let name = if file.is_some() { "readings.csv" } else { "" };
    let head = format!(
        "--{BOUNDARY}\r\nContent-Disposition: form-data; name=\"file\"; filename=\"{name}\"\r\nContent-Type: text/csv\r\n\r\n"
    );
    body.extend_from_slice(head.as_bytes());
    body.extend_from_slice(file.unwrap_or_default());
    body.extend_from_slice(format!("\r\n--{BOUNDARY}--\r\n").as_bytes());
    body
}

pub(super) fn encode(pairs: &[(&str, &str)]) -> String {
    let part = |text: &str| -> String {
        text.bytes()
            .map(|b| match b {
                b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' => char::from(b).to_string(),
                _ => format!("%{b:02X}"),
            })
            .collect()
    };
    let pairs: Vec<_> = pairs
        .iter()
        .map(|(n, v)| format!("{}={}", part(n), part(v)))
        .collect();
    pairs.join("&")
}
