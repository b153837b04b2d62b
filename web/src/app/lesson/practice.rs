//! Practising: a piece through all keys, what is due today, and what the ear tells.

use super::{Play, Veil};
use tastata::figures::Stage;
use tastata::harmony::Version;
use tastata::lesson::drill::{
    Day, Deck, EarQuestion, Grade, Item, KeyOrder, Question, all_keys, ear_cadence, ear_degree,
    ear_motion, question, through_keys,
};
use tastata::lesson::{Exercise, Parts};
use tastata::pitch::{PitchClass, Tonality};
use tastata::sketch::Sketch;

/// New things taken up at a time.
const NEW: usize = 5;

/// What is practised.
pub enum Practice {
    /// A piece through all keys.
    Keys(KeysRound),
    /// What is due today.
    Drill(Drill),
    /// What the ear tells.
    Ear(Ear),
}

/// A piece through all keys: only the tonic is told.
pub struct KeysRound {
    keys: Vec<Tonality>,
    sketches: Vec<Sketch>,
    at: usize,
}

impl KeysRound {
    /// The piece from its own key on.
    pub fn start(sketch: &Sketch, home: Tonality, order: KeyOrder) -> KeysRound {
        let keys = all_keys(home, order);
        let sketches = through_keys(sketch, &keys);
        KeysRound { keys, sketches, at: 0 }
    }

    /// The key now played in; none once all are through.
    pub fn key(&self) -> Option<Tonality> {
        self.keys.get(self.at).copied()
    }

    /// Which of how many keys.
    pub fn progress(&self) -> (usize, usize) {
        (self.at, self.keys.len())
    }

    /// The way through the piece in this key.
    pub fn play(&self) -> Option<Play> {
        self.sketches.get(self.at).and_then(Play::of)
    }

    /// Goes on to the next key.
    pub fn next(&mut self) {
        self.at = (self.at + 1).min(self.keys.len());
    }
}

/// How a question stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stand {
    /// It waits for an answer.
    Asked,
    /// This choice was taken.
    Chosen(usize),
    /// The answer was shown or played.
    Shown,
}

/// What is due today.
pub struct Drill {
    deck: Deck,
    today: Day,
    question: Option<Question>,
    stand: Stand,
    version: Version,
    /// Questions asked so far; moves the key and shuffles the choices.
    asked: u32,
}

impl Drill {
    /// The drill of a day with a deck as it was kept. An empty deck meets its first
    /// things.
    pub fn start(kept: &str, today: Day, version: Version) -> Drill {
        let mut deck = Deck::read(kept);
        if deck.cards.is_empty() {
            deck.meet(NEW, today);
        }
        let mut drill =
            Drill { deck, today, question: None, stand: Stand::Asked, version, asked: today };
        drill.ask();
        drill
    }

    /// The deck, to be kept.
    pub fn kept(&self) -> String {
        self.deck.print()
    }

    /// How many things are due.
    pub fn due(&self) -> usize {
        self.deck.due(self.today).len()
    }

    /// The question, if anything is due.
    pub fn question(&self) -> Option<&Question> {
        self.question.as_ref()
    }

    /// How it stands.
    pub fn stand(&self) -> Stand {
        self.stand
    }

    /// Takes up some new things.
    pub fn meet(&mut self) {
        self.deck.meet(NEW, self.today);
        self.ask();
    }

    /// Takes a choice; the first one counts.
    pub fn choose(&mut self, choice: usize) {
        if self.stand == Stand::Asked {
            self.stand = Stand::Chosen(choice);
        }
    }

    /// Whether the choice taken was right.
    pub fn was_right(&self) -> Option<bool> {
        match (self.stand, &self.question) {
            (Stand::Chosen(choice), Some(question)) => Some(choice == question.answer),
            _ => None,
        }
    }

    /// Shows the answer.
    pub fn show(&mut self) {
        if self.stand == Stand::Asked {
            self.stand = Stand::Shown;
        }
    }

    /// Notes how well it was known and asks the next thing. A wrong choice counts
    /// as missed whatever is said of it.
    pub fn grade(&mut self, grade: Grade) {
        let grade = if self.was_right() == Some(false) { Grade::Missed } else { grade };
        if let Some(question) = self.question.take() {
            self.deck.grade(question.item, grade, self.today);
        }
        self.ask();
    }

    fn ask(&mut self) {
        self.stand = Stand::Asked;
        self.asked = self.asked.wrapping_add(1);
        // Keys with few sharps and flats first; each thing is met in all of them.
        let tonic = PitchClass::from_fifths((self.asked.wrapping_mul(5) % 12) as i32 - 5);
        let last = self.question.as_ref().map(|question| question.item);
        let due = self.deck.due(self.today);
        let next = due.iter().find(|card| Some(card.item) != last).or(due.first());
        let item: Option<Item> = next.map(|card| card.item);
        self.question = item.map(|item| question(item, tonic, self.version, self.asked));
    }

    /// The sketch on the staff: a single note's bass is shown without its figures,
    /// of a whole bass only the tonic is told.
    pub fn sketch(&self) -> (Sketch, Option<Veil>) {
        let Some(question) = &self.question else { return (Sketch::default(), None) };
        match (self.stand, question.note) {
            (Stand::Asked, Some(_)) => (question.sketch.clone(), Some(bass_only())),
            (Stand::Asked, None) => (untold(&question.sketch), None),
            (Stand::Chosen(_) | Stand::Shown, _) => (question.sketch.clone(), None),
        }
    }

    /// The figures to choose among.
    pub fn choices(&self) -> &[Stage] {
        self.question.as_ref().map_or(&[], |question| &question.choices)
    }
}

/// What the ear is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EarKind {
    /// How the bass moves.
    Motion,
    /// Which degree is in the bass.
    Degree,
    /// Which cadence it is.
    Cadence,
}

/// What the ear tells.
pub struct Ear {
    kind: EarKind,
    seed: u32,
    question: EarQuestion,
    chosen: Option<usize>,
    right: u32,
    asked: u32,
}

impl Ear {
    /// The first question.
    pub fn start(kind: EarKind, seed: u32) -> Ear {
        let question = ask(kind, seed);
        Ear { kind, seed, question, chosen: None, right: 0, asked: 0 }
    }

    /// What is asked.
    pub fn question(&self) -> &EarQuestion {
        &self.question
    }

    /// The choice taken, if any.
    pub fn chosen(&self) -> Option<usize> {
        self.chosen
    }

    /// Takes a choice; the first one counts.
    pub fn choose(&mut self, choice: usize) {
        if self.chosen.is_none() {
            self.chosen = Some(choice);
            self.asked += 1;
            self.right += u32::from(choice == self.question.answer);
        }
    }

    /// How many were right, of how many.
    pub fn score(&self) -> (u32, u32) {
        (self.right, self.asked)
    }

    /// Asks the next question.
    pub fn next(&mut self) {
        self.seed = self.seed.wrapping_add(1);
        self.question = ask(self.kind, self.seed);
        self.chosen = None;
    }

    /// The sketch on the staff: nothing until a choice was taken.
    pub fn sketch(&self) -> Sketch {
        match self.chosen {
            Some(_) => self.question.sketch.clone(),
            None => untold(&self.question.sketch),
        }
    }
}

fn ask(kind: EarKind, seed: u32) -> EarQuestion {
    match kind {
        EarKind::Motion => ear_motion(seed),
        EarKind::Degree => ear_degree(seed),
        EarKind::Cadence => ear_cadence(seed),
    }
}

/// Nothing of the sketch but its key.
fn untold(sketch: &Sketch) -> Sketch {
    Sketch { notes: Vec::new(), ..sketch.clone() }
}

fn bass_only() -> Veil {
    Veil::of(&Exercise { given: Parts::default(), ..Exercise::default() })
}
