//! Names of notes and tonalities in the reader's habit.
//!
//! Octaves are counted alike in all habits: the C (do) in the middle of the
//! keyboard begins octave 4.

use super::{Lang, NoteNames, Tongue};
use crate::phrase;
use crate::pitch::{Mode, Pitch, PitchClass, Step, Tonality};

impl Lang {
    /// A note's name without its octave: `F♯`, `fa♯`, `Fis`.
    pub fn note(self, class: PitchClass) -> String {
        let sign = if class.alter < 0 { "♭" } else { "♯" };
        let signs = sign.repeat(usize::from(class.alter.unsigned_abs()));
        match self.notes {
            NoteNames::Letters => format!("{}{signs}", class.step.letter()),
            NoteNames::Solfege => format!("{}{signs}", self.syllable(class.step)),
            NoteNames::German => german(class),
        }
    }

    /// A note's name with its octave: `F♯3`, `fa♯3`, `Fis3`.
    pub fn pitch(self, pitch: Pitch) -> String {
        format!("{}{}", self.note(pitch.class()), pitch.octave)
    }

    /// A tonality's name: `C minor`, `do minore`, `c-Moll`, `do mineur`, `do menor`.
    pub fn tonality(self, tonality: Tonality) -> String {
        let mut tonic = self.note(tonality.tonic);
        if self.tongue == Tongue::German && tonality.mode == Mode::Minor {
            tonic = tonic.to_lowercase();
        }
        self.tell(
            match tonality.mode {
                Mode::Major => {
                    phrase!("{0} major", "{0} maggiore", "{0}-Dur", "{0} majeur", "{0} mayor")
                }
                Mode::Minor => {
                    phrase!("{0} minor", "{0} minore", "{0}-Moll", "{0} mineur", "{0} menor")
                }
            },
            [&tonic],
        )
    }

    fn syllable(self, step: Step) -> &'static str {
        match (step, self.tongue) {
            (Step::D, Tongue::French) => "ré",
            _ => ["do", "re", "mi", "fa", "sol", "la", "si"][step.index() as usize % 7],
        }
    }
}

/// `Cis`, `Es`, `As`, `B` for the H lowered, `Heses` for the H lowered twice.
fn german(class: PitchClass) -> String {
    let letter = if class.step == Step::B { 'H' } else { class.step.letter() };
    let count = usize::from(class.alter.unsigned_abs());
    match (class.step, class.alter) {
        (Step::B, -1) => "B".to_string(),
        // A vowel takes in the next one: Es, As, Eses, Asas.
        (Step::E, ..=-1) => format!("E{}", "es".repeat(count).trim_start_matches('e')),
        (Step::A, ..=-1) => format!("A{}", "as".repeat(count).trim_start_matches('a')),
        (_, ..=-1) => format!("{letter}{}", "es".repeat(count)),
        _ => format!("{letter}{}", "is".repeat(count)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_are_named_in_the_readers_habit() {
        let named = |lang: Lang, fifths: &[i32]| {
            let names = fifths.iter().map(|&it| lang.note(PitchClass::from_fifths(it)));
            names.collect::<Vec<_>>().join(" ")
        };
        let line = [-9, -8, -5, -4, -3, -2, -1, 0, 2, 5, 6, 7, 12, 13];
        assert_eq!(named(Lang::English, &line), "B♭♭ F♭ D♭ A♭ E♭ B♭ F C D B F♯ C♯ B♯ F♯♯");
        assert_eq!(named(Lang::German, &line), "Heses Fes Des As Es B F C D H Fis Cis His Fisis");
        assert_eq!(
            named(Lang::French, &line),
            "si♭♭ fa♭ ré♭ la♭ mi♭ si♭ fa do ré si fa♯ do♯ si♯ fa♯♯"
        );
        assert_eq!(named(Lang::Italian, &[2]), "re");
        assert_eq!(named(Lang::German, &[-10, -11]), "Eses Asas");
    }

    #[test]
    fn tonalities_are_named_in_each_language() {
        let named = |text: &str, lang: Lang| {
            Tonality::parse(text).map_or(String::new(), |it| lang.tonality(it))
        };
        assert_eq!(named("Eb", Lang::English), "E♭ major");
        assert_eq!(named("bbm", Lang::German), "b-Moll");
        assert_eq!(named("Bb", Lang::German), "B-Dur");
        assert_eq!(named("bm", Lang::German), "h-Moll");
        assert_eq!(named("Eb", Lang::Italian), "mi♭ maggiore");
        assert_eq!(named("d", Lang::French), "ré mineur");
        assert_eq!(named("g", Lang::Spanish), "sol menor");
    }
}
