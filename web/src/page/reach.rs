//! The reach of each hand: chosen in white keys, seen on a picture of the keys it
//! covers, and set by touching the key that the thumb or the little finger can get to.

use super::controls::number;
use super::reader::lang;
use super::{act, dom, wishes};
use crate::app::{App, Intent};
use std::fmt::Write;
use std::ops::RangeInclusive;
use tastata::hands::{Hand, HandSize};
use tastata::sketch::Sketch;
use tastata::words;
use web_sys::{Element, MouseEvent};

/// White keys crossed.
const SPANS: RangeInclusive<u8> = 4..=11;
/// White keys on the picture.
const KEYS: u8 = 12;
/// A white key's width and length on the picture.
const WIDTH: f64 = 10.0;
const LENGTH: f64 = 34.0;
/// Room above the keys for the hand.
const HAND: f64 = 16.0;
/// White keys with a black one to their right, from the C on.
const RAISED: [u8; 8] = [0, 1, 3, 4, 5, 7, 8, 10];
/// Where the five fingertips lie between little finger and thumb, in parts of the span.
const FINGERS: [f64; 5] = [0.0, 0.27, 0.5, 0.73, 1.0];

const HANDS: [(&str, &str, Hand); 2] =
    [("left-span", "left-reach", Hand::Left), ("right-span", "right-reach", Hand::Right)];

pub(super) fn fill() {
    for (select, _, _) in HANDS {
        for span in SPANS {
            wishes::option(select, &span.to_string(), &words::reach(span, lang()));
        }
    }
}

pub(super) fn wire() {
    number("left-span", |sketch, span: u8| sketch.hands.left.span = span);
    number("right-span", |sketch, span: u8| sketch.hands.right.span = span);
    for (_, picture, hand) in HANDS {
        dom::on_id(picture, "click", move |event: MouseEvent| touched(picture, hand, &event));
    }
}

/// A touch on the picture's last key covered sets the reach.
fn touched(picture: &str, hand: Hand, event: &MouseEvent) {
    let Some(svg) = dom::get::<Element>(picture).and_then(|it| it.first_element_child()) else {
        return;
    };
    let rect = svg.get_bounding_client_rect();
    let at = (f64::from(event.client_x()) - rect.left()) / rect.width().max(1.0);
    let key = (at * f64::from(KEYS)).floor().clamp(0.0, f64::from(KEYS - 1)) as u8;
    let span = key.clamp(*SPANS.start(), *SPANS.end());
    act(Intent::wish(move |sketch| size(sketch, hand).span = span));
}

fn size(sketch: &mut Sketch, hand: Hand) -> &mut HandSize {
    match hand {
        Hand::Left => &mut sketch.hands.left,
        Hand::Right => &mut sketch.hands.right,
    }
}

/// Shows both reaches.
pub(super) fn show(app: &App) {
    let hands = &app.sketch().hands;
    for (select, picture, hand) in HANDS {
        let span = match hand {
            Hand::Left => hands.left.span,
            Hand::Right => hands.right.span,
        };
        let span = span.clamp(*SPANS.start(), *SPANS.end());
        wishes::choose(select, &span.to_string());
        let Some(holder) = dom::get::<Element>(picture) else { continue };
        let said = words::reach_picture(hand, span, lang());
        if holder.get_attribute("data-key").as_ref() == Some(&said) {
            continue;
        }
        dom::set_attr(&holder, "data-key", &said);
        holder.set_inner_html(&drawn(hand, span));
        if let Some(told) = dom::text("p", "hint", &said) {
            let _ = holder.append_child(&told);
        }
    }
}

/// The keys, those within reach filled, and above them the hand: five fingertips on an
/// arc, the thumb the broad one.
fn drawn(hand: Hand, span: u8) -> String {
    let (width, height) = (f64::from(KEYS) * WIDTH, HAND + LENGTH);
    let mut svg =
        format!("<svg viewBox=\"-1 0 {} {}\" aria-hidden=\"true\">", width + 2.0, height + 1.0);
    for key in 0..KEYS {
        let kind = if key <= span { "white within" } else { "white" };
        let _ = write!(
            svg,
            "<rect class=\"{kind}\" x=\"{}\" y=\"{HAND}\" width=\"{WIDTH}\" height=\"{LENGTH}\"/>",
            f64::from(key) * WIDTH
        );
    }
    for key in RAISED {
        let _ = write!(
            svg,
            "<rect class=\"black\" x=\"{}\" y=\"{HAND}\" width=\"6\" height=\"{}\"/>",
            f64::from(key + 1) * WIDTH - 3.0,
            LENGTH * 0.6
        );
    }
    let x = |part: f64| (part * f64::from(span) + 0.5) * WIDTH;
    let (from, to) = (x(0.0), x(1.0));
    let _ =
        write!(svg, "<path class=\"hand\" d=\"M{from} {HAND}C{from} -2 {to} -2 {to} {HAND}\"/>");
    for (finger, part) in FINGERS.into_iter().enumerate() {
        // The little finger is the left hand's lowest and the right hand's highest.
        let part = match hand {
            Hand::Left => part,
            Hand::Right => 1.0 - part,
        };
        let thumb = finger == 4;
        let y = HAND + LENGTH - if thumb { 6.0 } else { 10.0 };
        let (rx, ry) = if thumb { (4.2, 4.2) } else { (2.8, 4.2) };
        let side = match hand {
            Hand::Left => "left",
            Hand::Right => "right",
        };
        let _ = write!(
            svg,
            "<ellipse class=\"finger {side}\" cx=\"{:.1}\" cy=\"{y}\" rx=\"{rx}\" ry=\"{ry}\"/>",
            x(part)
        );
    }
    svg.push_str("</svg>");
    svg
}
