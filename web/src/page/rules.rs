//! The rulebook on the page: each rule with how strictly it is taken, and on
//! request its explanation, a tiny example and its source.

use super::audio::Follow;
use super::reader::{lang, say, tell};
use super::{act, dom, glossary, with};
use crate::app::{App, Intent};
use tastata::frame::{self, Frame, Rule, Strictness};
use tastata::hands::{Handful, Hands};
use tastata::harmony::Harmony;
use tastata::pitch::{Mode, PitchClass, Step, Tonality};
use tastata::reading::Reading;
use tastata::roll::{Performance, outer_voices};
use tastata::sketch::{Sketch, SketchNote};
use tastata::staff::{self, Layer, Layers, Look};
use tastata::words::page::said;
use tastata::words::{self, Phrase};
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlSelectElement, MouseEvent};

/// How strictly a rule can be taken, by the names the page gives it.
const STRICTNESS: [(&str, Phrase, Strictness); 4] = [
    ("usual", said::AS_USUAL, Strictness::Usual),
    ("fault", said::A_FAULT, Strictness::Fault),
    ("caution", said::A_CAUTION, Strictness::Caution),
    ("off", said::NOT_AT_ALL, Strictness::Off),
];

/// Staff spaces of the example's width.
const EXAMPLE_WIDTH: f64 = 26.0;

pub(super) fn wire() {
    dom::on_id("rules-room", "toggle", |_: Event| with(|page| show(&page.app)));
    dom::on_id("rules", "change", |event: Event| {
        let Some(select) = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok())
        else {
            return;
        };
        let chosen = STRICTNESS.iter().find(|(name, ..)| *name == select.value());
        if let (Some(rule), Some(&(.., strictness))) = (rule_of(&select), chosen) {
            act(Intent::wish(move |sketch| {
                sketch.frame.rules = sketch.frame.rules.with(rule, strictness);
            }));
        }
    });
    dom::on_id("rules", "click", |event: MouseEvent| {
        let Some(rule) = dom::closest(&event, "[data-rule]").as_ref().and_then(rule_of) else {
            return;
        };
        if dom::closest(&event, "[data-hear]").is_some() {
            with(move |page| {
                let example = frame::example(rule);
                let pairs = frame::pairs(&example.chords, &example.soprano);
                page.hear(outer_voices(&pairs), 0, Follow::Keys);
            });
        } else if dom::closest(&event, "[data-explain]").is_some() {
            let _ = explain(rule, &event);
        }
    });
}

fn rule_of(element: &Element) -> Option<Rule> {
    Rule::ALL.get(dom::data_number(element, "data-rule")?).copied()
}

/// Shows the rules, if the list is open.
pub(super) fn show(app: &App) {
    let open = dom::get::<Element>("rules-room").is_some_and(|room| room.has_attribute("open"));
    let Some(list) = dom::get::<Element>("rules").filter(|_| open) else { return };
    if list.child_element_count() == 0 {
        for (number, rule) in Rule::ALL.into_iter().enumerate() {
            if let Some(item) = line(number, rule) {
                let _ = list.append_child(&item);
            }
        }
    }
    for (number, rule) in Rule::ALL.into_iter().enumerate() {
        let strictness = app.sketch().frame.rules.strictness(rule);
        let name = STRICTNESS.iter().find(|(.., s)| *s == strictness).map_or("", |(name, ..)| name);
        super::wishes::choose(&format!("rule-{number}"), name);
    }
}

fn line(number: usize, rule: Rule) -> Option<Element> {
    let item = dom::make("li", "rule")?;
    dom::set_attr(&item, "data-rule", &number.to_string());
    let name = dom::text("button", "quiet", &words::rule_heading(rule, lang()))?;
    dom::set_attr(&name, "data-explain", "");
    dom::set_attr(&name, "aria-expanded", "false");
    let _ = item.append_child(&name);
    let select = dom::make("select", "")?;
    dom::set_attr(&select, "id", &format!("rule-{number}"));
    dom::set_attr(&select, "data-rule", &number.to_string());
    let label = tell(said::COUNTS_AS, [&words::rule_heading(rule, lang())]);
    dom::set_attr(&select, "aria-label", &label);
    for (name, text, _) in STRICTNESS {
        let option = dom::text("option", "", say(text))?;
        dom::set_attr(&option, "value", name);
        let _ = select.append_child(&option);
    }
    let _ = item.append_child(&select);
    Some(item)
}

/// Opens or closes a rule's explanation.
fn explain(rule: Rule, event: &Event) -> Option<()> {
    let item = dom::closest(event, "li")?;
    let button = item.query_selector("[data-explain]").ok()??;
    if let Some(opened) = item.query_selector(".explained").ok()? {
        opened.remove();
        dom::set_attr(&button, "aria-expanded", "false");
        return Some(());
    }
    dom::set_attr(&button, "aria-expanded", "true");
    let holder = dom::make("div", "explained")?;
    let _ =
        holder.append_child(&*glossary::text_marked("p", "", words::rule_explained(rule, lang()))?);
    let picture = dom::make("div", "staff example")?;
    picture.set_inner_html(&drawn(rule));
    let _ = holder.append_child(&picture);
    let hear = dom::text("button", "quiet", say(said::HEAR_EXAMPLE))?;
    dom::set_attr(&hear, "data-hear", "");
    let _ = holder.append_child(&hear);
    let _ = holder.append_child(&*dom::text("p", "hint", words::rule_source(rule, lang()))?);
    let _ = item.append_child(&holder);
    Some(())
}

/// The rule's example on a grand staff.
fn drawn(rule: Rule) -> String {
    let example = frame::example(rule);
    let home = Tonality::new(PitchClass::new(Step::C, 0), Mode::Major);
    let mut notes: Vec<SketchNote> = Vec::new();
    for chord in &example.chords {
        if chord.note == notes.len() {
            notes.push(SketchNote::bare(chord.bass));
        }
    }
    let sketch = Sketch { tonality: Some(home), notes, ..Sketch::default() };
    let handfuls = example
        .chords
        .iter()
        .zip(&example.soprano)
        .map(|(chord, &soprano)| Handful { left: vec![chord.bass], right: vec![soprano] });
    let reading = Reading {
        hands: Hands { handfuls: handfuls.collect(), remarks: Vec::new() },
        frame: Frame::of(&sketch, &example.chords, example.soprano, 1),
        harmony: Harmony { home, chords: example.chords, remarks: Vec::new() },
        performance: Performance::default(),
    };
    let show = Layers::NONE.with(Layer::Soprano).with(Layer::Faults);
    let look = Look { show, lang: lang(), ..Look::new(EXAMPLE_WIDTH) };
    let drawing = staff::draw(&sketch, &reading, &look);
    let system = |s: staff::System| {
        let label = say(said::EXAMPLE_STAFF);
        format!(
            "<svg viewBox=\"0 0 {:.1} {:.1}\" role=\"img\" aria-label=\"{label}\">{}</svg>",
            s.width,
            s.height,
            s.svg.replace(" id=\"", " data-id=\"")
        )
    };
    drawing.systems.into_iter().map(system).collect()
}
