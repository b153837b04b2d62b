//! Long use without a browser: ten thousand things done in no order, then all undone.

use super::*;
use tastata::bass::{OctaveRun, octave};
use tastata::figures::read_figures;
use tastata::files::encode;
use tastata::frame::{Position, Preference};
use tastata::hands::Hand;
use tastata::pitch::{Interval, Step};

/// Things done; each is followed by a whole reading.
const DEEDS: usize = 10_000;
/// Beyond this many notes the piece is started anew, so that readings stay quick.
const LONGEST: usize = 24;

/// A linear congruential sequence (Knuth, *The Art of Computer Programming*, vol. 2,
/// 3.3.4, line 26), the same on every run.
struct Draw(u64);

impl Draw {
    fn below(&mut self, below: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        ((self.0 >> 33) as usize) % below.max(1)
    }

    fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }
}

fn deed(app: &App, draw: &mut Draw) -> Intent {
    let notes = app.sketch().notes.len();
    if notes > LONGEST {
        return Intent::StartEmpty;
    }
    let note = draw.below(notes + 1);
    let chord = draw.below(app.reading().harmony.chords.len() + 1);
    let way = draw.of(&[-1, 1]);
    let drag = draw.of(&[None, Some(1), Some(2)]);
    let pitch = Pitch::new(
        draw.of(&[Step::C, Step::D, Step::F, Step::G, Step::B]),
        draw.of(&[-1, 0, 0, 0, 1]),
        draw.of(&[2, 3, 4, 5]),
    );
    match draw.below(26) {
        0 => Intent::TypeBass(
            draw.of(&["d: D3 C#3 6 D3 G3 A3 5/4 3 D3", "C D E F", "", "C3 quaver 7 ( D3", "c"])
                .into(),
        ),
        1 | 2 => Intent::Press(pitch.key().unwrap_or(Key::clamped(60))),
        3..=5 => Intent::Select((notes > 0).then_some(Place { note, stage: 0 })),
        6 => Intent::Step(way),
        7 => Intent::MoveBass { note, pitch, drag },
        8 | 9 => Intent::MoveSoprano { chord, to: pitch + Interval::OCTAVE, drag },
        10 => Intent::NudgeSoprano(way),
        11 => Intent::Pin(chord),
        12 => Intent::FreeSoprano,
        13 => Intent::EditHandful { edit: Edit::Add { hand: Hand::Right, pitch }, drag },
        14 => Intent::FreeHandful,
        15 => Intent::InsertAfter,
        16 => Intent::Join(octave(
            app.reading().harmony.home,
            draw.of(&[OctaveRun::Up, OctaveRun::Down]),
            None,
        )),
        17 => Intent::Delete,
        18 => Intent::Shift(way),
        19 => {
            let typed = draw.of(&["6", "6/5", "7-6", "9/4-8/3", "#6", "4/2"]);
            Intent::Figures { note, figures: read_figures(typed).ok() }
        }
        20 => {
            let position = draw.of(&[Position::Octave, Position::Third, Position::Fifth]);
            Intent::wish(move |sketch| sketch.frame.position = Some(position))
        }
        21 => {
            let preference = draw.of(&[Preference::Contrary, Preference::Tenths]);
            Intent::wish(move |sketch| sketch.frame.preference = preference)
        }
        22 => Intent::Keys(draw.of(&[
            Keys::AddBass,
            Keys::ChangeBass,
            Keys::Soprano,
            Keys::Handful,
            Keys::Figures,
        ])),
        23 => match draw.below(3) {
            0 => Intent::Undo,
            1 => Intent::Redo,
            _ => Intent::Settle,
        },
        24 => Intent::Project(draw.of(&[None, Some(Reveal::Soprano)])),
        _ => draw.of(&[|| Intent::Example, || Intent::StartEmpty, || Intent::Settle])(),
    }
}

#[test]
fn ten_thousand_deeds_are_undone_to_the_start() {
    let mut app = App::opening();
    let start = encode(app.sketch());
    let mut draw = Draw(1708);
    let mut changes = 0;
    for _ in 0..DEEDS {
        let intent = deed(&app, &mut draw);
        changes += usize::from(app.update(intent).contains(&Effect::Changed));
        let chords = app.reading().harmony.chords.len();
        assert_eq!(app.reading().frame.soprano.len(), chords);
        assert_eq!(app.reading().hands.handfuls.len(), chords);
    }
    assert!(changes > DEEDS / 3, "{changes} deeds changed something");
    let end = encode(app.sketch());
    let mut steps = 0;
    while app.can_undo() {
        app.update(Intent::Undo);
        steps += 1;
    }
    assert_eq!(encode(app.sketch()), start, "after {steps} steps back");
    while app.can_redo() {
        app.update(Intent::Redo);
    }
    assert_eq!(encode(app.sketch()), end);
}
