//! What to practise today: cards in boxes.
//!
//! Our own plain scheme. A card in box *n* comes again after 2ⁿ days: the next
//! day, then after 2, 4, 8, 16 and 32. Known, it moves one box up; known with
//! effort, it stays; missed, it goes back to the first box and comes again the
//! same day, after the others. No clock is kept here: the day is given.

use super::item::Item;
use crate::order;

/// A day, counted from any fixed day on.
pub type Day = u32;

/// The highest box.
const TOP: u8 = 5;

/// One thing being learnt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Card {
    /// The thing.
    pub item: Item,
    /// Its box, in the range [0, 5].
    pub level: u8,
    /// The day it comes again.
    pub due: Day,
    /// How often it was missed.
    pub misses: u32,
}

/// How well a card was known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Grade {
    /// At once.
    Known,
    /// With effort.
    Barely,
    /// Not.
    Missed,
}

/// All cards of a student.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Deck {
    /// The cards met so far, in the order in which they were met.
    pub cards: Vec<Card>,
}

impl Deck {
    /// The cards to practise on a day, the most overdue first, and of those the
    /// lowest box first.
    pub fn due(&self, today: Day) -> Vec<Card> {
        let mut due: Vec<Card> =
            self.cards.iter().filter(|card| card.due <= today).copied().collect();
        order::by_key(&mut due, |card| (card.due, card.level));
        due
    }

    /// Takes up to `count` things not met yet into the deck, from the first lesson
    /// on, due on that day; gives how many there were.
    pub fn meet(&mut self, count: usize, today: Day) -> usize {
        let known = |item: &Item| self.cards.iter().any(|card| card.item == *item);
        let new: Vec<Item> =
            Item::all().into_iter().filter(|item| !known(item)).take(count).collect();
        let card = |item: &Item| Card { item: *item, level: 0, due: today, misses: 0 };
        self.cards.extend(new.iter().map(card));
        new.len()
    }

    /// Notes how well a card was known on a day. A thing not in the deck is taken in.
    pub fn grade(&mut self, item: Item, grade: Grade, today: Day) {
        let place = match self.cards.iter().position(|card| card.item == item) {
            Some(place) => place,
            None => {
                self.cards.push(Card { item, level: 0, due: today, misses: 0 });
                self.cards.len() - 1
            }
        };
        let Some(card) = self.cards.get_mut(place) else { return };
        match grade {
            Grade::Known => {
                card.due = today.saturating_add(interval(card.level));
                card.level = (card.level + 1).min(TOP);
            }
            Grade::Barely => {
                card.due = today.saturating_add(interval(card.level.saturating_sub(1)))
            }
            Grade::Missed => {
                card.level = 0;
                card.due = today;
                card.misses = card.misses.saturating_add(1);
            }
        }
    }

    /// The deck as text for keeping, one card a line.
    pub fn print(&self) -> String {
        let line = |card: &Card| {
            let Card { item, level, due, misses } = card;
            format!("{} {level} {due} {misses}\n", item.code())
        };
        self.cards.iter().map(line).collect()
    }

    /// The deck of a text. A line that cannot be read is passed over, so that a
    /// damaged or newer text loses no more than it must.
    pub fn read(text: &str) -> Deck {
        let mut deck = Deck::default();
        for line in text.lines() {
            let mut words = line.split_whitespace();
            let item = words.next().and_then(Item::from_code);
            let mut number = || words.next().and_then(|word| word.parse::<u32>().ok());
            let (Some(item), Some(level), Some(due), Some(misses)) =
                (item, number(), number(), number())
            else {
                continue;
            };
            if deck.cards.iter().all(|card| card.item != item) {
                let level = level.min(u32::from(TOP)) as u8;
                deck.cards.push(Card { item, level, due, misses });
            }
        }
        deck
    }
}

/// Days until a card of this box comes again.
const fn interval(level: u8) -> Day {
    1 << if level > TOP { TOP } else { level }
}
