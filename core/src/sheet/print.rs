//! Writes one page as SVG.

use super::layout::{Anchor, Content, Page};
use super::{PageForm, SPACE};
use crate::staff::{STYLE, symbols};
use std::fmt::Write as _;

/// A page. Writing to a string has no way to fail.
pub(super) fn page(page: Page, title: &str, content: &Content<'_>) -> String {
    let Page { width, height, form } = page;
    let mut svg = String::with_capacity(40_000);
    let _ = write!(
        svg,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\" color=\"#000\" fill=\"#000\"><title>{}</title>",
        escaped(title),
    );
    if form == PageForm::File {
        let _ = write!(
            svg,
            "<style>{STYLE}</style><defs>{}</defs><path fill=\"#fff\" d=\"M0 0h{width}v{height}H0z\"/>",
            symbols(),
        );
    }
    for text in &content.texts {
        let anchor = match text.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
        };
        let _ = write!(
            svg,
            "<text x=\"{:.2}\" y=\"{:.2}\" font-size=\"{}\" text-anchor=\"{anchor}\" \
             font-family=\"serif\">{}</text>",
            text.x,
            text.y,
            text.size,
            escaped(&text.text),
        );
    }
    if let Some((x, y, side, code)) = &content.qr {
        let inner = code.strip_prefix("<svg ").unwrap_or_default();
        let _ = write!(
            svg,
            "<svg x=\"{x:.2}\" y=\"{y:.2}\" width=\"{side}\" height=\"{side}\" {inner}"
        );
    }
    for (x, y, system) in &content.systems {
        let _ = write!(svg, "<g transform=\"translate({x:.2} {y:.2}) scale({SPACE})\">");
        match form {
            PageForm::File => svg.push_str(system),
            // The page it stands in has these places already, on the screen.
            PageForm::Inline => svg.push_str(&system.replace(" id=\"", " data-id=\"")),
        }
        svg.push_str("</g>");
    }
    svg.push_str("</svg>\n");
    svg
}

/// Text as XML holds it; control characters are left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '\t' => out.push(' '),
            c if c < ' ' || c == '\u{FFFE}' || c == '\u{FFFF}' => {}
            c => out.push(c),
        }
    }
    out
}

/// Pages in one HTML file that prints them on paper of their own size, one a sheet.
pub(super) fn document(title: &str, pages: &[String], width: f64, height: f64) -> String {
    let mut html = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>{}</title><style>\
         @page{{size:{width}mm {height}mm;margin:0}}body{{margin:0}}\
         body>svg{{display:block;break-after:page}}body>svg:last-child{{break-after:auto}}\
         @media screen{{body{{background:#777}}body>svg{{margin:4mm auto}}}}</style><body>",
        escaped(title),
    );
    pages.iter().for_each(|page| html.push_str(page.trim_end()));
    html.push_str("</body></html>\n");
    html
}
