//! A student's work on a set: an answer to each exercise, how far each has come,
//! what was checked, and the time of making.

use super::{Play, Veil};
use tastata::files::{self, Linked};
use tastata::frame::Fault;
use tastata::lesson::{
    Answer, Ask, Asked, Exercise, Feedback, Finding, FindingKind, Found, HandIn, Naming, Part,
    Progress, Report, Set, Telling, Told, check, in_tonality,
};
use tastata::pitch::Tonality;
use tastata::sketch::Sketch;

/// The longest pause that still counts as making, in milliseconds.
const LONGEST_PAUSE: f64 = 120_000.0;
const MINUTE: f64 = 60_000.0;

/// The work on one exercise.
#[derive(Clone, Debug, Default)]
struct Entry {
    answer: Option<Answer>,
    progress: Progress,
    hints: usize,
    report: Option<Report>,
    /// Whether something was changed after the report.
    changed_since: bool,
    /// The findings of which the student asked to know more, and how often.
    asked_more: Vec<(Finding, usize)>,
    millis: f64,
}

/// A student's work on a set.
#[derive(Clone, Debug)]
pub struct Work {
    set: Set,
    link: String,
    entries: Vec<Entry>,
    at: usize,
    /// The key that is worked in, where several are asked for.
    key: Option<Tonality>,
    /// The student's name; empty before the first handing in.
    pub student: String,
    last_deed: Option<f64>,
}

impl Work {
    /// The work before anything is done. A set without exercises is refused.
    pub fn start(set: Set) -> Option<Work> {
        if set.exercises.is_empty() {
            return None;
        }
        let entries = vec![Entry::default(); set.exercises.len()];
        let link = files::encode_set(&set);
        let student = String::new();
        Some(Work { set, link, entries, at: 0, key: None, student, last_deed: None })
    }

    /// The name under which the work on this set is kept.
    pub fn name(&self) -> String {
        // The link's own checksum stands at its end.
        let from = self.link.len().saturating_sub(12);
        format!("tastata.work.{}", self.link.get(from..).unwrap_or(&self.link))
    }

    /// The work as text: the link of the answers, then for each exercise how far it
    /// is, the hints taken and the milliseconds spent.
    pub fn kept(&self) -> String {
        let mut text = files::encode_hand_in(&self.hand_in());
        for entry in &self.entries {
            let progress = match entry.progress {
                Progress::Started => 's',
                Progress::Tried => 't',
                Progress::HandedIn => 'h',
            };
            text.push_str(&format!(" {progress}.{}.{:.0}", entry.hints, entry.millis));
        }
        text
    }

    /// Goes on from what [`Work::kept`] gave; anything else is passed over.
    pub fn resume(&mut self, kept: &str) {
        let mut words = kept.split(' ');
        let Some(Ok(Linked::HandIn(old))) = words.next().map(files::open) else { return };
        if old.set != self.set {
            return;
        }
        self.student = old.student;
        for (entry, answer) in self.entries.iter_mut().zip(old.answers) {
            entry.answer = answer;
        }
        for (entry, word) in self.entries.iter_mut().zip(words) {
            let mut parts = word.split('.');
            entry.progress = match parts.next() {
                Some("h") => Progress::HandedIn,
                Some("t") => Progress::Tried,
                _ => Progress::Started,
            };
            let mut number = || parts.next().and_then(|n| n.parse::<u32>().ok()).unwrap_or(0);
            entry.hints = number() as usize;
            entry.millis = f64::from(number());
        }
    }

    /// The set.
    pub fn set(&self) -> &Set {
        &self.set
    }

    /// Index of the exercise that is worked on.
    pub fn at(&self) -> usize {
        self.at
    }

    /// The exercise that is worked on.
    pub fn exercise(&self) -> &Exercise {
        // `at` is kept within the set, which is never empty.
        &self.set.exercises[self.at]
    }

    fn entry(&self) -> &Entry {
        &self.entries[self.at]
    }

    /// How far the exercise has come.
    pub fn progress(&self) -> Progress {
        self.entry().progress
    }

    /// The answer so far.
    pub fn answer(&self) -> Answer {
        self.entry().answer.clone().unwrap_or_else(|| Answer::start(self.exercise()))
    }

    /// Whether something was done already.
    pub fn is_begun(&self) -> bool {
        self.entry().answer.is_some()
    }

    /// The keys asked for, if any.
    pub fn keys(&self) -> &[Tonality] {
        let keys = |ask: &'_ Ask| matches!(ask, Ask::Keys(_));
        match self.exercise().asks.iter().find(|ask| keys(ask)) {
            Some(Ask::Keys(keys)) => keys,
            _ => &[],
        }
    }

    /// The key that is worked in, where several are asked for.
    pub fn key(&self) -> Option<Tonality> {
        self.key
    }

    /// How a fault must be found, where faults are to be found.
    pub fn naming(&self) -> Option<Naming> {
        self.exercise().asks.iter().find_map(|ask| match ask {
            Ask::FindFaults(naming) => Some(*naming),
            _ => None,
        })
    }

    /// The sketch to be worked on.
    pub fn sketch(&self) -> Sketch {
        let answer = self.answer();
        let Some(key) = self.key else { return answer.sketch };
        let played = answer.keys.into_iter().find(|it| it.tonality == Some(key));
        played.unwrap_or_else(|| Sketch {
            tonality: Some(key),
            notes: Vec::new(),
            ..self.exercise().sketch.clone()
        })
    }

    /// The chords to be played along: in another key those of the model or of what
    /// is given, in the given key those of the work; none where they are asked for.
    pub fn to_play(&self) -> Option<Play> {
        let exercise = self.exercise();
        match self.key {
            Some(key) => {
                let reference = exercise.model.as_ref().map(|model| &model.sketch);
                Play::of(&in_tonality(reference.unwrap_or(&exercise.sketch), key))
            }
            None if exercise.given.has(Part::Figures) => Play::of(&self.sketch()),
            None => None,
        }
    }

    /// Whether the chords may be played along.
    pub fn can_play(&self) -> bool {
        self.key.is_some() || self.exercise().given.has(Part::Figures)
    }

    /// The veil over that sketch.
    pub fn veil(&self) -> Veil {
        let faults = match self.report() {
            Some(report) if !self.entry().changed_since => outer_faults(report),
            _ => Vec::new(),
        };
        Veil::of(self.exercise()).marking(if self.key.is_none() { faults } else { Vec::new() })
    }

    /// Goes to an exercise; beyond the set the nearest one.
    pub fn go(&mut self, to: usize) {
        self.at = to.min(self.entries.len().saturating_sub(1));
        self.key = None;
    }

    /// Works in one of the keys asked for, or on the piece as it is given.
    pub fn work_in(&mut self, key: Option<Tonality>) {
        self.key = key.filter(|key| self.keys().contains(key));
    }

    /// The sketch was changed by the student at this moment, in milliseconds.
    pub fn changed(&mut self, sketch: &Sketch, now: f64) {
        if *sketch == self.sketch() {
            return;
        }
        let mut answer = self.answer();
        match self.key {
            None => answer.sketch = sketch.clone(),
            Some(key) => {
                answer.keys.retain(|it| it.tonality != Some(key));
                let played = Sketch { tonality: Some(key), ..sketch.clone() };
                if !played.notes.is_empty() {
                    answer.keys.push(played);
                }
            }
        }
        self.put(answer, now);
    }

    /// Points at a fault, or takes the mark away again.
    pub fn mark(&mut self, found: Found, now: f64) {
        let mut answer = self.answer();
        match answer.found.iter().position(|it| *it == found) {
            Some(at) => {
                answer.found.remove(at);
            }
            None => answer.found.push(found),
        }
        self.put(answer, now);
    }

    fn put(&mut self, mut answer: Answer, now: f64) {
        let gap = self.last_deed.map_or(0.0, |last| (now - last).clamp(0.0, LONGEST_PAUSE));
        self.last_deed = Some(now);
        let live = self.exercise().feedback == Feedback::Live;
        let at = self.at;
        let exercise = &self.set.exercises[at];
        let entry = &mut self.entries[at];
        entry.millis += gap;
        answer.minutes = minutes(entry.millis);
        entry.changed_since = true;
        if live {
            entry.report = Some(check(exercise, &answer));
            entry.changed_since = false;
            entry.progress = entry.progress.max(Progress::Tried);
        }
        entry.answer = Some(answer);
    }

    /// Notes that the student is here, so that the first change has a beginning.
    pub fn arrive(&mut self, now: f64) {
        self.last_deed = Some(now);
    }

    /// Whether the student may ask for a check now.
    pub fn may_check(&self) -> bool {
        self.exercise().feedback.shows(self.progress(), Asked::Now)
    }

    /// Checks the exercise, if it may be checked now.
    pub fn check(&mut self) {
        if !self.may_check() {
            return;
        }
        let report = check(self.exercise(), &self.answer());
        let entry = &mut self.entries[self.at];
        entry.report = Some(report);
        entry.changed_since = false;
        entry.progress = entry.progress.max(Progress::Tried);
    }

    /// The last check, if there is one to be shown.
    pub fn report(&self) -> Option<&Report> {
        self.entry().report.as_ref()
    }

    /// Whether something was changed after the last check.
    pub fn changed_since_check(&self) -> bool {
        self.entry().changed_since
    }

    /// How much is told of a finding of the report.
    pub fn told(&self, finding: &Finding) -> Told {
        let asked = self.entry().asked_more.iter().find(|(it, _)| it == finding);
        self.exercise().telling.tells(self.progress(), asked.map_or(0, |(_, asked)| *asked))
    }

    /// Whether the student may ask to know more of a finding.
    pub fn may_ask_more(&self, finding: &Finding) -> bool {
        self.exercise().telling == Telling::InSteps && self.told(finding) != Told::All
    }

    /// Tells more of this finding, counted through the report.
    pub fn ask_more(&mut self, place: usize) {
        let finding = self.report().and_then(|report| report.findings().nth(place)).cloned();
        let Some(finding) = finding.filter(|it| self.may_ask_more(it)) else { return };
        let asked = &mut self.entries[self.at].asked_more;
        match asked.iter_mut().find(|(it, _)| *it == finding) {
            Some((_, asked)) => *asked += 1,
            None => asked.push((finding, 1)),
        }
    }

    /// The hints taken so far.
    pub fn hints(&self) -> &[String] {
        let hints = &self.exercise().hints;
        hints.get(..self.entry().hints.min(hints.len())).unwrap_or_default()
    }

    /// Takes the next hint.
    pub fn next_hint(&mut self) {
        let most = self.exercise().hints.len();
        let entry = &mut self.entries[self.at];
        entry.hints = (entry.hints + 1).min(most);
    }

    /// The answers as they are handed in.
    pub fn hand_in(&self) -> HandIn {
        HandIn {
            student: self.student.clone(),
            set: self.set.clone(),
            answers: self.entries.iter().map(|entry| entry.answer.clone()).collect(),
        }
    }

    /// Everything is handed in: what was to wait for that may now be seen.
    pub fn handed_in(&mut self) {
        for (exercise, entry) in self.set.exercises.iter().zip(&mut self.entries) {
            entry.progress = Progress::HandedIn;
            if let Some(answer) = &entry.answer {
                entry.report = Some(check(exercise, answer));
                entry.changed_since = false;
            }
        }
    }

    /// The model answer, if it may be opened now.
    pub fn model(&self) -> Option<&Sketch> {
        self.exercise().open_model(self.progress())
    }
}

/// The faults of the outer voices in a report, to be marked on the staff.
pub(super) fn outer_faults(report: &Report) -> Vec<Fault> {
    let outer = report.findings().filter_map(|finding| match &finding.kind {
        FindingKind::Outer(fault) => Some(fault.clone()),
        _ => None,
    });
    outer.collect()
}

fn minutes(millis: f64) -> u16 {
    (millis / MINUTE).ceil().clamp(0.0, f64::from(u16::MAX)) as u16
}
