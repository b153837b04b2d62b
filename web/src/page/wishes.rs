//! The wishes: key, outer voices, hands, roll and sound, shown and filled in.

use super::controls::{chosen, named, number, press, slider, value_of};
use super::reader::{lang, say, tell};
use super::{act, dom, lasting, tuning, with};
use crate::app::{App, Intent, Rest};
use tastata::frame::{self, Position, Preference, Smoothness};
use tastata::hands::{Compass, LowKeys, Spacing};
use tastata::harmony::Version;
use tastata::pitch::{Mode, PitchClass, Tonality};
use tastata::roll::{Held, Stroke, StrokePlan};
use tastata::sketch::Sketch;
use tastata::sound::{Temperament, Voice};
use tastata::words::page::said;
use tastata::words::{self, Phrase};
use web_sys::{Element, Event, HtmlInputElement, HtmlSelectElement};

/// Keyboards to choose from.
pub(super) const COMPASSES: [(Phrase, Compass); 5] = [
    (said::FOUR_OCTAVES, Compass::FOUR_OCTAVES),
    (said::FIVE_OCTAVES, Compass::FIVE_OCTAVES),
    (said::KEYS_61, Compass::KEYS_61),
    (said::KEYS_76, Compass::KEYS_76),
    (said::KEYS_88, Compass::KEYS_88),
];

/// Tunings to choose from.
pub(super) const TUNINGS: [(Phrase, Temperament); 7] = [
    (said::QUARTER_COMMA, Temperament::QuarterComma),
    (said::SIXTH_COMMA, Temperament::SixthComma),
    (said::WERCKMEISTER, Temperament::Werckmeister3),
    (said::KIRNBERGER, Temperament::Kirnberger3),
    (said::VALLOTTI, Temperament::Vallotti),
    (said::YOUNG, Temperament::Young2),
    (said::EQUAL, Temperament::Equal),
];

/// Where the soprano begins, by the names the page gives them; likewise below.
pub(super) const POSITIONS: [(&str, Option<Position>); 4] = [
    ("any", None),
    ("octave", Some(Position::Octave)),
    ("third", Some(Position::Third)),
    ("fifth", Some(Position::Fifth)),
];

/// Published versions of the octave rule, by author and year, and counted habits.
pub(super) const VERSIONS: [(Phrase, Version); 8] = [
    (said::CAMPION, Version::Campion),
    (said::RAMEAU, Version::Rameau),
    (said::FENAROLI, Version::Fenaroli),
    (said::GASPARINI, Version::Gasparini),
    (said::HEINICHEN, Version::Heinichen),
    (said::CAMPION_SIXTH, Version::AugmentedSixth),
    (said::CHORALES, Version::Chorales),
    (said::MADRIGALS, Version::Madrigals),
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
pub(super) const STROKES: [(Phrase, Stroke); 7] = [
    (said::SWEEP, Stroke::Sweep),
    (said::HAND_AFTER_HAND, Stroke::HandAfterHand),
    (said::INSIDE_OUT, Stroke::InsideOut),
    (said::BROKEN_THIRDS, Stroke::BrokenThirds),
    (said::TURNING_BACK, Stroke::TurningBack),
    (said::REPEATED_BASS, Stroke::RepeatedBass),
    (said::BASS_ALONE, Stroke::BassAlone),
];

/// Instruments to choose from.
pub(super) const VOICES: [(Phrase, Voice); 5] = [
    (said::PLUCKED_8, Voice::Plucked8),
    (said::PLUCKED_84, Voice::Plucked84),
    (said::BUFF, Voice::Buff),
    (said::STRUCK, Voice::Struck),
    (said::ORGAN, Voice::Organ),
];

/// How long the fingers stay on what they struck, by the names the page gives it.
pub(super) const HOLDS: [(&str, Held); 3] =
    [("collected", Held::Collected), ("kept", Held::Kept), ("let-go", Held::LetGo)];

/// Tonalities to choose from: signatures up to seven sharps or flats.
pub(super) fn tonalities() -> impl Iterator<Item = Tonality> {
    let tonics = |mode, shift| {
        (-7..=7).map(move |f| Tonality::new(PitchClass::from_fifths(f + shift), mode))
    };
    tonics(Mode::Major, 0).chain(tonics(Mode::Minor, 3))
}

/// Fills the choices that are lists of data.
pub(super) fn fill() {
    option("tonality", "", say(said::FOUND));
    for (i, tonality) in tonalities().enumerate() {
        option("tonality", &i.to_string(), &lang().tonality(tonality));
    }
    for (i, (name, _)) in COMPASSES.iter().enumerate() {
        option("compass", &i.to_string(), say(*name));
    }
    for (i, (name, _)) in TUNINGS.iter().enumerate() {
        option("temperament", &i.to_string(), say(*name));
    }
    option("temperament", tuning::OWN, say(said::OWN_TUNING));
    for (i, (name, _)) in VERSIONS.iter().enumerate() {
        option("version", &i.to_string(), say(*name));
    }
    for (i, (name, _)) in VOICES.iter().enumerate() {
        option("voice", &i.to_string(), say(*name));
    }
    lasting::fill();
    option("plan", "speech", say(said::BY_SPEECH));
    option("plan", "varied", say(said::VARIED));
    option("chord-stroke", "piece", say(said::LIKE_PIECE));
    for (i, (name, _)) in STROKES.iter().enumerate() {
        option("plan", &i.to_string(), say(*name));
        option("chord-stroke", &i.to_string(), say(*name));
    }
    option("chord-times", "piece", say(said::LIKE_PIECE));
    for (i, text) in
        [said::ONCE_UP, said::ROLLED_UP_AND_DOWN, said::TWICE, said::THREE_TIMES, said::FOUR_TIMES]
            .into_iter()
            .enumerate()
    {
        option("chord-times", &i.to_string(), say(text));
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
        let name = if sketch.notes.is_empty() {
            say(said::FOUND).to_owned()
        } else {
            tell(said::KEY_FOUND, [&lang().tonality(home)])
        };
        let text = if chosen.is_none() { name } else { say(said::FIND_IT).to_owned() };
        if found.text_content().as_deref() != Some(&text) {
            found.set_text_content(Some(&text));
        }
    }
    choose("position", name_of(&POSITIONS, &sketch.frame.position));
    if let Some(another) = dom::get::<Element>("another") {
        let choices = app.reading().frame.choices;
        let text = tell(
            said::ANOTHER_SOPRANO,
            [&(sketch.frame.choice as usize % choices.max(1) + 1), &choices],
        );
        if another.text_content().as_deref() != Some(&text) {
            another.set_text_content(Some(&text));
        }
    }
    let hands = &sketch.hands;
    choose("left-notes", &hands.left.notes.to_string());
    choose("right-notes", &hands.right.notes.to_string());
    // Empty where the hands differ.
    let same = hands.left.span == hands.right.span;
    choose("span", &if same { hands.right.span.to_string() } else { String::new() });
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
    percent("spice", sketch.roll.spice.into());
    choose("voice", &index_of(&VOICES, &sketch.sound.voice));
    choose("temperament", &tuning::chosen(sketch.sound.temperament));
    input("a4", &sketch.sound.a4.to_string());
    choose("held", name_of(&HOLDS, &sketch.roll.held));
    dom::set_text("force", words::force(sketch.sound.voice, lang()));
    percent("pace", sketch.roll.speed);
    input("title", &sketch.title);
}

fn check(id: &str, on: bool) {
    if let Some(input) = dom::get::<HtmlInputElement>(id)
        && input.checked() != on
    {
        input.set_checked(on);
    }
}

pub(super) fn index_of<N, T: PartialEq>(list: &[(N, T)], value: &T) -> String {
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

/// Puts a slider at a percentage, which is written beside it.
pub(super) fn percent(id: &str, value: u16) {
    input(id, &value.to_string());
    dom::set_text(&format!("{id}-percent"), &format!("{value}\u{202f}%"));
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
    dom::on_id("a4", "change", |_: Event| {
        // What lies beyond the instrument's range is taken at its nearer end.
        if let Ok(hertz) = value_of("a4").parse::<f64>() {
            act(Intent::wish(move |sketch| sketch.sound.a4 = hertz.clamp(380.0, 480.0)));
        }
    });
    named("held", &HOLDS, |sketch, it| sketch.roll.held = it);
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
