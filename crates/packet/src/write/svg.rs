//! Drawing files, and drawings within the page. Text that a builder typed stands in text nodes only.

use super::files::FILE_PAGE;
use crate::Packet;
use crate::drawing::{Anchor, Drawing, Element, Label, Shape, Stroke};
use crate::words::page as words;
use svg::node::Text as TextNode;
use svg::node::element::{Anchor as Link, Circle, Group, Polygon, Polyline, Rectangle, Style, Text, Title};

/// Height of the strip below a drawing that says what it is, mm.
const STRIP: f64 = 34.0;
/// Height of a line of that strip, mm.
const LINE: f64 = 4.4;
/// Height of its letters, mm.
const TYPE: f64 = 2.8;
/// A drawing file is no narrower than this, mm, so that the strip finds room.
const NARROWEST: f64 = 190.0;

/// Lines of a drawing file. Within the page its style sheet says the same.
const STYLE: &str = "text{font-family:system-ui,'Liberation Sans','DejaVu Sans',Arial,sans-serif;fill:#111}\
a:hover .mark{stroke-width:0.9}.mark{fill:none;stroke:#111;stroke-width:.35;stroke-linejoin:round;stroke-linecap:round}\
.fine{stroke-width:.18;stroke:#555}.thick{stroke-width:1}.dashed{stroke-dasharray:1.6 1.2;stroke:#555}.filled{fill:#111}\
.watermark{fill:none;stroke:#a30d1f;stroke-width:.5;opacity:.55;font-weight:700}";

/// A drawing as a file of its own, with the strip that says of which build and revision it is.
pub fn svg(drawing: &Drawing, packet: &Packet) -> String {
    let width = drawing.width.max(NARROWEST);
    let height = drawing.height + STRIP;
    let mut document = svg::Document::new()
        .set("viewBox", (0.0, 0.0, width, height))
        .set("width", format!("{width}mm"))
        .set("height", format!("{height}mm"))
        .add(title(&format!("{}: {}", drawing.title, drawing.part_title)))
        .add(Style::new(STYLE))
        .add(Rectangle::new().set("width", width).set("height", height).set("fill", "#fff"))
        .add(body(drawing, |part| format!("../{FILE_PAGE}#p{part}"), None));
    document = document.add(strip(drawing, packet, width));
    if packet.head.not_for_construction {
        document = document.add(watermark(width, drawing.height));
    }
    format!("{document}\n")
}

/// A drawing within the page. Of the parts only those that have a row there are linked.
pub fn inline(drawing: &Drawing, packet: &Packet, has_row: &dyn Fn(u32) -> bool) -> String {
    let mut document = svg::Document::new()
        .set("viewBox", (0.0, 0.0, drawing.width, drawing.height))
        .set("class", "drawing")
        .set("role", "group")
        .set("aria-labelledby", format!("h-{}", drawing.id))
        // As large as on paper, as far as the screen is wide enough; the style says the rest.
        .set("style", format!("--width:{}mm", drawing.width))
        .add(body(drawing, |part| format!("#p{part}"), Some(has_row)));
    if packet.head.not_for_construction {
        document = document.add(watermark(drawing.width, drawing.height));
    }
    document.to_string()
}

fn title(text: &str) -> Title {
    Title::new(report::visible(text).into_owned())
}

fn body(drawing: &Drawing, address: impl Fn(u32) -> String, has_row: Option<&dyn Fn(u32) -> bool>) -> Group {
    let mut all = Group::new();
    for element in &drawing.elements {
        let mut group = Group::new();
        for shape in &element.shapes {
            group = drawn(group, shape);
        }
        for label in &element.labels {
            group = group.add(text(label));
        }
        all = match &element.part {
            Some(part) => {
                group = Group::new().add(title(&part.title)).add(group);
                if has_row.is_none_or(|has_row| has_row(part.number)) {
                    all.add(link(element, group, address(part.number)))
                } else {
                    all.add(group)
                }
            }
            None => all.add(group),
        };
    }
    all
}

fn link(element: &Element, group: Group, address: String) -> Link {
    let link = Link::new().set("href", address);
    // What has no text of its own would be a stop of the keyboard without a name.
    let link = if element.labels.is_empty() { link.set("tabindex", -1).set("aria-hidden", "true") } else { link };
    link.add(group)
}

const fn class(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Fine => "mark fine",
        Stroke::Line => "mark",
        Stroke::Thick => "mark thick",
        Stroke::Dashed => "mark dashed",
        Stroke::Filled => "mark filled",
    }
}

/// Hundredths of a millimetre are more than a printer shows.
fn round(number: f64) -> f64 {
    (number * 100.0).round() / 100.0
}

fn drawn(group: Group, shape: &Shape) -> Group {
    match shape {
        Shape::Line { points, closed, stroke } => {
            let points: Vec<String> = points.iter().map(|[x, y]| format!("{},{}", round(*x), round(*y))).collect();
            let points = points.join(" ");
            if *closed {
                group.add(Polygon::new().set("points", points).set("class", class(*stroke)))
            } else {
                group.add(Polyline::new().set("points", points).set("class", class(*stroke)))
            }
        }
        Shape::Circle { centre, radius, stroke } => group.add(
            Circle::new()
                .set("cx", round(centre[0]))
                .set("cy", round(centre[1]))
                .set("r", round(*radius))
                .set("class", class(*stroke)),
        ),
    }
}

fn text(label: &Label) -> Text {
    let mut node = Text::new("").set("x", round(label.at[0])).set("y", round(label.at[1])).set("font-size", label.size);
    if label.anchor == Anchor::Middle {
        node = node.set("text-anchor", "middle");
    }
    if label.bold {
        node = node.set("font-weight", 700);
    }
    node.add(TextNode::new(label.text.clone()))
}

/// What a drawing by itself must say.
fn strip(drawing: &Drawing, packet: &Packet, width: f64) -> Group {
    let head = &packet.head;
    let mut group = Group::new();
    let mut line = |number: u32, words: String, bold: bool| {
        let at = [4.0, drawing.height + f64::from(number) * LINE];
        let label = Label { bold, ..Label::fitted(&words, at, TYPE, Anchor::Start, (width - 8.0) / 1.15) };
        let node = std::mem::replace(&mut group, Group::new()).add(text(&label));
        group = node;
    };
    line(1, format!("{}: {}", drawing.title, drawing.part_title), true);
    line(2, format!("{}: {}; {}: {}", head.build, head.vehicle, words::REVISION, head.revision), false);
    line(3, format!("{} {}; {} {}", words::DATE, head.date, words::HASH, head.short_hash()), false);
    line(4, format!("{} {}", words::PACKS, head.packs_in_a_line()), false);
    line(5, super::front::counts(head), false);
    line(6, format!("{} {}", words::NOT_A_CERTIFICATE, report::CAUTION), false);
    line(7, format!("{} ________________________________", words::SIGN), false);
    group
}

/// Across a drawing from which nothing may be built.
fn watermark(width: f64, height: f64) -> Text {
    let size = (width / 14.0).min(height / 2.0);
    Text::new("")
        .set("class", "watermark")
        .set("aria-hidden", "true")
        .set("x", round(width / 2.0))
        .set("y", round(height / 2.0))
        .set("font-size", round(size))
        .set("text-anchor", "middle")
        .set("transform", format!("rotate(-8 {} {})", round(width / 2.0), round(height / 2.0)))
        .add(TextNode::new(words::NOT_FOR_CONSTRUCTION))
}
