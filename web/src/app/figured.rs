//! Figures by playing: the chord that is struck over the selected bass note is named.

use super::{App, Effect};
use tastata::figures::{Figures, Stage, name_chord};
use tastata::pitch::Key;
use tastata::words::page::said;

impl App {
    /// Strikes a key of the chord that is played over the bass, or takes it out again.
    pub(super) fn join_chord(&mut self, key: Key, effects: &mut Vec<Effect>) {
        let mut played = self.view.played.clone();
        match played.iter().position(|it| *it == key) {
            Some(at) => {
                played.remove(at);
            }
            None => played.push(key),
        }
        self.play_chord(played, effects);
    }

    /// Takes these keys as played over the selected bass note, and writes the figures
    /// that say so, if some do.
    pub(super) fn play_chord(&mut self, played: Vec<Key>, effects: &mut Vec<Effect>) {
        let Some(place) = self.view.selected else {
            effects.push(Effect::Say(said::CHOOSE_FOR_FIGURES));
            return;
        };
        self.view.played = played;
        let Some(stage) = self.played_figures() else { return };
        let Some(note) = self.sketch.notes.get_mut(place.note) else { return };
        let mut stages = note.figures.take().map_or(Vec::new(), |it| it.stages().to_vec());
        match stages.get_mut(place.stage) {
            Some(slot) => *slot = stage,
            None => stages = vec![stage],
        }
        note.figures = Figures::new(stages);
    }

    /// The figures of what is played over the selected bass note.
    pub fn played_figures(&self) -> Option<Stage> {
        let place = self.view.selected?;
        let bass = self.sketch.notes.get(place.note)?.pitch.class();
        let chromas: Vec<i32> = self.view.played.iter().map(|key| key.number()).collect();
        name_chord(bass, &chromas, self.reading.harmony.home)
    }
}
