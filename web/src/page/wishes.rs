//! The wishes: key, outer voices, hands, roll and sound, shown and filled in.

use super::controls::{chosen, named, number, press, slider};
use super::reader::lang;
use super::{act, dom, with};
use crate::app::{App, Intent, Rest};
use tastata::frame::{self, Position, Preference, Smoothness};
use tastata::hands::{Compass, LowKeys, Spacing};
use tastata::harmony::Version;
use tastata::pitch::{Mode, PitchClass, Tonality};
use tastata::roll::{Stroke, StrokePlan};
use tastata::sketch::Sketch;
use tastata::sound::{Temperament, Voice};
use tastata::words;
use web_sys::{Element, Event, HtmlInputElement, HtmlSelectElement};

/// Keyboards to choose from.
pub(super) const COMPASSES: [(&str, Compass); 5] = [
    ("four octaves, C–c‴", Compass::FOUR_OCTAVES),
    ("five octaves, FF–f‴", Compass::FIVE_OCTAVES),
    ("61 keys", Compass::KEYS_61),
    ("76 keys", Compass::KEYS_76),
    ("88 keys", Compass::KEYS_88),
];

/// Tunings to choose from.
pub(super) const TUNINGS: [(&str, Temperament); 7] = [
    ("quarter-comma meantone", Temperament::QuarterComma),
    ("sixth-comma meantone", Temperament::SixthComma),
    ("Werckmeister III", Temperament::Werckmeister3),
    ("Kirnberger III", Temperament::Kirnberger3),
    ("Vallotti", Temperament::Vallotti),
    ("Young", Temperament::Young2),
    ("equal", Temperament::Equal),
];

/// Where the soprano begins, by the names the page gives them; likewise below.
pub(super) const POSITIONS: [(&str, Option<Position>); 4] = [
    ("any", None),
    ("octave", Some(Position::Octave)),
    ("third", Some(Position::Third)),
    ("fifth", Some(Position::Fifth)),
];

/// Published versions of the octave rule, by author and year.
pub(super) const VERSIONS: [(&str, Version); 7] = [
    ("Campion, 1716", Version::Campion),
    ("Rameau, 1722", Version::Rameau),
    ("Fenaroli, 1775", Version::Fenaroli),
    ("Gasparini, 1708", Version::Gasparini),
    ("Heinichen, 1728", Version::Heinichen),
    ("Campion with the augmented sixth", Version::AugmentedSixth),
    ("as in four-part chorales", Version::Chorales),
];

pub(super) const PREFERENCES: [(&str, Preference); 2] =
    [("contrary", Preference::Contrary), ("tenths", Preference::Tenths)];

pub(super) const LINES: [(&str, Smoothness); 3] =
    [("flowing", Smoothness::Flowing), ("usual", Smoothness::Usual), ("bold", Smoothness::Bold)];

pub(super) const SPACINGS: [(&str, Spacing); 2] =
    [("even", Spacing::Even), ("wide", Spacing::Wide)];

pub(super) const LOW_KEYS: [(&str, LowKeys); 3] =
    [("chromatic", LowKeys::Chromatic), ("c", LowKeys::ShortC), ("g", LowKeys::ShortG)];

/// Strokes to choose from.
pub(super) const STROKES: [(&str, Stroke); 7] = [
    ("in one sweep", Stroke::Sweep),
    ("hand after hand", Stroke::HandAfterHand),
    ("inside out", Stroke::InsideOut),
    ("in broken thirds", Stroke::BrokenThirds),
    ("turning back before the top", Stroke::TurningBack),
    ("with the bass struck again", Stroke::RepeatedBass),
    ("bass alone, then the handful", Stroke::BassAlone),
];

/// Instruments to choose from.
pub(super) const VOICES: [(&str, Voice); 5] = [
    ("plucked, 8′", Voice::Plucked8),
    ("plucked, 8′ and 4′", Voice::Plucked84),
    ("plucked, buff", Voice::Buff),
    ("struck: early piano", Voice::Struck),
    ("organ, to hear the lines", Voice::Organ),
];

/// Heights of a′ in hertz.
pub(super) const HEIGHTS: [f64; 4] = [392.0, 415.0, 440.0, 466.0];

/// Tonalities to choose from: signatures up to seven sharps or flats.
pub(super) fn tonalities() -> impl Iterator<Item = Tonality> {
    let tonics = |mode, shift| {
        (-7..=7).map(move |f| Tonality::new(PitchClass::from_fifths(f + shift), mode))
    };
    tonics(Mode::Major, 0).chain(tonics(Mode::Minor, 3))
}

/// Fills the choices that are lists of data.
pub(super) fn fill() {
    option("tonality", "", "found");
    for (i, tonality) in tonalities().enumerate() {
        option("tonality", &i.to_string(), &tonality.to_string());
    }
    for (i, (name, _)) in COMPASSES.iter().enumerate() {
        option("compass", &i.to_string(), name);
    }
    for (i, (name, _)) in TUNINGS.iter().enumerate() {
        option("temperament", &i.to_string(), name);
    }
    for (i, (name, _)) in VERSIONS.iter().enumerate() {
        option("version", &i.to_string(), name);
    }
    for (i, (name, _)) in VOICES.iter().enumerate() {
        option("voice", &i.to_string(), name);
    }
    option("plan", "speech", "by what each chord says");
    option("plan", "varied", "another for each chord");
    option("chord-stroke", "piece", "like the piece");
    for (i, (name, _)) in STROKES.iter().enumerate() {
        option("plan", &i.to_string(), name);
        option("chord-stroke", &i.to_string(), name);
    }
    for height in HEIGHTS {
        option("a4", &height.to_string(), &format!("{height} Hz"));
    }
    option("chord-times", "piece", "like the piece");
    for (i, text) in
        ["up once", "up and down", "twice", "three times", "four times"].into_iter().enumerate()
    {
        option("chord-times", &i.to_string(), text);
    }
}

/// Shows every wish as it stands.
pub(super) fn show(app: &App) {
    let sketch = app.sketch();
    let home = app.reading().harmony.home;
    let chosen = sketch.tonality.and_then(|t| tonalities().position(|it| it == t));
    choose("tonality", &chosen.map(|i| i.to_string()).unwrap_or_default());
    if let Some(found) =
        dom::get::<HtmlSelectElement>("tonality").and_then(|s| s.first_element_child())
    {
        let name =
            if sketch.notes.is_empty() { "found".to_owned() } else { format!("{home} (found)") };
        let text = if chosen.is_none() { name } else { "find it".to_owned() };
        if found.text_content().as_deref() != Some(&text) {
            found.set_text_content(Some(&text));
        }
    }
    choose("position", name_of(&POSITIONS, &sketch.frame.position));
    if let Some(another) = dom::get::<Element>("another") {
        let choices = app.reading().frame.choices;
        let text = format!(
            "Another soprano ({} of {choices})",
            sketch.frame.choice as usize % choices.max(1) + 1
        );
        if another.text_content().as_deref() != Some(&text) {
            another.set_text_content(Some(&text));
        }
    }
    let hands = &sketch.hands;
    choose("left-notes", &hands.left.notes.to_string());
    choose("right-notes", &hands.right.notes.to_string());
    choose("span", &hands.right.span.to_string());
    choose("spacing", name_of(&SPACINGS, &hands.spacing));
    choose("low-keys", name_of(&LOW_KEYS, &hands.low_keys));
    choose("preference", name_of(&PREFERENCES, &sketch.frame.preference));
    choose("smoothness", name_of(&LINES, &sketch.frame.smoothness));
    choose("version", &index_of(&VERSIONS, &sketch.harmony.version));
    choose("daring", &sketch.harmony.daring.min(4).to_string());
    check("speech", app.view().speech);
    check("motions", app.view().motions);
    let reading = app.reading();
    let pairs = frame::pairs(&reading.harmony.chords, &reading.frame.soprano);
    let balance = words::motion_summary(&frame::motions(&pairs), lang());
    dom::set_text("balance", &balance);
    choose("compass", &index_of(&COMPASSES, &sketch.hands.compass));
    choose("times", &sketch.roll.times.to_string());
    let plan = match sketch.roll.plan {
        StrokePlan::Speech => "speech".to_owned(),
        StrokePlan::Varied => "varied".to_owned(),
        StrokePlan::Even(stroke) => index_of(&STROKES, &stroke),
    };
    choose("plan", &plan);
    input("spice", &sketch.roll.spice.to_string());
    choose("voice", &index_of(&VOICES, &sketch.sound.voice));
    choose("temperament", &index_of(&TUNINGS, &sketch.sound.temperament));
    choose("a4", &sketch.sound.a4.to_string());
    input("pace", &sketch.roll.speed.to_string());
    input("title", &sketch.title);
}

fn check(id: &str, on: bool) {
    if let Some(input) = dom::get::<HtmlInputElement>(id)
        && input.checked() != on
    {
        input.set_checked(on);
    }
}

pub(super) fn index_of<T: PartialEq>(list: &[(&str, T)], value: &T) -> String {
    list.iter().position(|(_, v)| v == value).map(|i| i.to_string()).unwrap_or_default()
}

pub(super) fn name_of<T: PartialEq>(list: &[(&'static str, T)], value: &T) -> &'static str {
    list.iter().find(|(_, v)| v == value).map_or("", |(name, _)| name)
}

pub(super) fn choose(id: &str, value: &str) {
    if let Some(select) = dom::get::<HtmlSelectElement>(id)
        && select.value() != value
    {
        select.set_value(value);
    }
}

pub(super) fn input(id: &str, value: &str) {
    if let Some(input) = dom::get::<HtmlInputElement>(id)
        && !dom::has_focus(id)
        && input.value() != value
    {
        input.set_value(value);
    }
}

pub(super) fn option(id: &str, value: &str, text: &str) {
    let (Some(select), Some(option)) = (dom::get::<Element>(id), dom::make("option", "")) else {
        return;
    };
    dom::set_attr(&option, "value", value);
    option.set_text_content(Some(text));
    let _ = select.append_child(&option);
}

/// Listens to every wish.
pub(super) fn wire() {
    outer_voices();
    harmony_hands_and_sound();
}

fn outer_voices() {
    named("position", &POSITIONS, |sketch, it| sketch.frame.position = it);
    named("preference", &PREFERENCES, |sketch, it| sketch.frame.preference = it);
    named("smoothness", &LINES, |sketch, it| sketch.frame.smoothness = it);
    press("another", || {
        with(|page| {
            let choices = page.app.reading().frame.choices.max(1);
            page.act(Intent::wish(move |sketch| {
                let next = (sketch.frame.choice as usize + 1) % choices;
                sketch.frame.choice = u8::try_from(next).unwrap_or(0);
            }));
        });
    });
    dom::on_id("speech", "change", |_: Event| {
        let on = dom::get::<HtmlInputElement>("speech").is_some_and(|input| input.checked());
        act(Intent::ShowSpeech(on));
    });
    dom::on_id("motions", "change", |_: Event| {
        let on = dom::get::<HtmlInputElement>("motions").is_some_and(|input| input.checked());
        act(Intent::ShowMotions(on));
    });
    press("free", || act(Intent::FreeSoprano));
    for radio in ["rest-anew", "rest-put"] {
        dom::on_id(radio, "change", |_: Event| {
            let put = dom::get::<HtmlInputElement>("rest-put").is_some_and(|r| r.checked());
            act(Intent::Rest(if put { Rest::StaysPut } else { Rest::SetAnew }));
        });
    }
}

fn harmony_hands_and_sound() {
    number("left-notes", |sketch, n: u8| sketch.hands.left.notes = n);
    number("right-notes", |sketch, n: u8| sketch.hands.right.notes = n);
    number("span", |sketch, n: u8| {
        sketch.hands.left.span = n;
        sketch.hands.right.span = n;
    });
    named("spacing", &SPACINGS, |sketch, it| sketch.hands.spacing = it);
    named("low-keys", &LOW_KEYS, |sketch, it| sketch.hands.low_keys = it);
    number("compass", |sketch, i: usize| {
        if let Some((_, compass)) = COMPASSES.get(i) {
            sketch.hands.compass = *compass;
        }
    });
    number("times", |sketch, n: u8| sketch.roll.times = n);
    number("version", |sketch, i: usize| {
        if let Some((_, version)) = VERSIONS.get(i) {
            sketch.harmony.version = *version;
        }
    });
    number("daring", |sketch, n: u8| sketch.harmony.daring = n);
    number("temperament", |sketch, i: usize| {
        if let Some((_, temperament)) = TUNINGS.get(i) {
            sketch.sound.temperament = *temperament;
        }
    });
    number("a4", |sketch, hertz: f64| sketch.sound.a4 = hertz);
    slider("pace", 1, |speed: u16, slider| {
        let apply = Box::new(move |sketch: &mut Sketch| sketch.roll.speed = speed);
        act(Intent::Wish { apply, slider });
    });
    slider("spice", 2, |spice: u8, slider| {
        let apply = Box::new(move |sketch: &mut Sketch| sketch.roll.spice = spice);
        act(Intent::Wish { apply, slider });
    });
    chosen("plan", |value| {
        let plan = match value.as_str() {
            "speech" => Some(StrokePlan::Speech),
            "varied" => Some(StrokePlan::Varied),
            index => index
                .parse::<usize>()
                .ok()
                .and_then(|i| STROKES.get(i))
                .map(|(_, stroke)| StrokePlan::Even(*stroke)),
        };
        if let Some(plan) = plan {
            act(Intent::wish(move |sketch| sketch.roll.plan = plan));
        }
    });
    number("voice", |sketch, i: usize| {
        if let Some((_, voice)) = VOICES.get(i) {
            sketch.sound.voice = *voice;
        }
    });
    press("take", || {
        act(Intent::wish(|sketch| sketch.roll.seed = sketch.roll.seed.wrapping_add(1)));
    });
}
