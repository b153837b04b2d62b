//! Teaching in sentences: what is asked, what was found, how a class did.

mod asks;
mod class;
mod findings;
mod practice;
mod settings;
mod summary;
mod told;

pub use asks::ask;
pub use class::{class_csv, class_head, class_line, row_status};
pub use findings::{finding, finding_advice};
pub use practice::{
    drill_due, drill_item, drill_question, ear_choice, ear_prompt, key_order, waiting,
};
pub use settings::{feedback, hears, opens, qr_error, sealed, telling};
pub use summary::{difference, outcome, report_summary};
pub use told::{finding_keeps_back, finding_told, still_to_do, waiting_untold};

use super::Lang;
use crate::figures::Stage;
use crate::frame::Position;
use crate::harmony::Cadence;
use crate::phrase;

/// Figures as the staff writes them, or words where nothing is.
fn figures(stage: &Stage, lang: Lang) -> String {
    match stage {
        Stage::Hold => lang
            .say(phrase!(
                "a held chord",
                "un accordo tenuto",
                "ein gehaltener Akkord",
                "un accord tenu",
                "un acorde tenido"
            ))
            .to_string(),
        Stage::TastoSolo => lang
            .say(phrase!(
                "the bass alone",
                "il basso solo",
                "der Bass allein",
                "la basse seule",
                "el bajo solo"
            ))
            .to_string(),
        Stage::Signs(_) => super::figures_shown(stage, lang),
    }
}

/// The position a soprano is in: "in first position, the octave on top".
fn in_position(position: Position, lang: Lang) -> &'static str {
    lang.say(match position {
        Position::Octave => phrase!(
            "in first position, the octave on top",
            "in prima posizione, con l’ottava in alto",
            "in erster Lage, die Oktave oben",
            "en première position, l’octave en haut",
            "en primera posición, la octava arriba"
        ),
        Position::Third => phrase!(
            "in second position, the third on top",
            "in seconda posizione, con la terza in alto",
            "in zweiter Lage, die Terz oben",
            "en deuxième position, la tierce en haut",
            "en segunda posición, la tercera arriba"
        ),
        Position::Fifth => phrase!(
            "in third position, the fifth on top",
            "in terza posizione, con la quinta in alto",
            "in dritter Lage, die Quinte oben",
            "en troisième position, la quinte en haut",
            "en tercera posición, la quinta arriba"
        ),
    })
}

fn cadence(cadence: Cadence, lang: Lang) -> &'static str {
    lang.say(match cadence {
        Cadence::Simple => phrase!(
            "a simple cadence",
            "una cadenza semplice",
            "eine einfache Kadenz",
            "une cadence simple",
            "una cadencia simple"
        ),
        Cadence::Compound => phrase!(
            "a compound cadence",
            "una cadenza composta",
            "eine zusammengesetzte Kadenz",
            "une cadence composée",
            "una cadencia compuesta"
        ),
        Cadence::Double => phrase!(
            "a double cadence",
            "una cadenza doppia",
            "eine doppelte Kadenz",
            "une cadence double",
            "una cadencia doble"
        ),
        Cadence::Half => phrase!(
            "a half cadence",
            "una cadenza sospesa",
            "ein Halbschluss",
            "une demi-cadence",
            "una semicadencia"
        ),
        Cadence::Phrygian => phrase!(
            "a Phrygian cadence",
            "una cadenza frigia",
            "eine phrygische Kadenz",
            "une cadence phrygienne",
            "una cadencia frigia"
        ),
        Cadence::Deceptive => phrase!(
            "a deceptive cadence",
            "una cadenza d’inganno",
            "ein Trugschluss",
            "une cadence rompue",
            "una cadencia rota"
        ),
        Cadence::Evaded => phrase!(
            "an evaded cadence",
            "una cadenza evitata",
            "eine vermiedene Kadenz",
            "une cadence évitée",
            "una cadencia evitada"
        ),
    })
}

fn with_cadence(cadence: Cadence, lang: Lang) -> &'static str {
    lang.say(match cadence {
        Cadence::Simple => phrase!(
            "with a simple cadence",
            "con una cadenza semplice",
            "mit einer einfachen Kadenz",
            "par une cadence simple",
            "con una cadencia simple"
        ),
        Cadence::Compound => phrase!(
            "with a compound cadence",
            "con una cadenza composta",
            "mit einer zusammengesetzten Kadenz",
            "par une cadence composée",
            "con una cadencia compuesta"
        ),
        Cadence::Double => phrase!(
            "with a double cadence",
            "con una cadenza doppia",
            "mit einer doppelten Kadenz",
            "par une cadence double",
            "con una cadencia doble"
        ),
        Cadence::Half => phrase!(
            "with a half cadence",
            "con una cadenza sospesa",
            "mit einem Halbschluss",
            "par une demi-cadence",
            "con una semicadencia"
        ),
        Cadence::Phrygian => phrase!(
            "with a Phrygian cadence",
            "con una cadenza frigia",
            "mit einer phrygischen Kadenz",
            "par une cadence phrygienne",
            "con una cadencia frigia"
        ),
        Cadence::Deceptive => phrase!(
            "with a deceptive cadence",
            "con una cadenza d’inganno",
            "mit einem Trugschluss",
            "par une cadence rompue",
            "con una cadencia rota"
        ),
        Cadence::Evaded => phrase!(
            "with an evaded cadence",
            "con una cadenza evitata",
            "mit einer vermiedenen Kadenz",
            "par une cadence évitée",
            "con una cadencia evitada"
        ),
    })
}

/// "one note", "2 notes".
fn notes(count: usize, lang: Lang) -> String {
    lang.count(
        count,
        phrase!("one note", "una nota", "ein Ton", "une note", "una nota"),
        phrase!("{0} notes", "{0} note", "{0} Töne", "{0} notes", "{0} notas"),
    )
}

/// "one chord", "2 chords".
fn chords(count: usize, lang: Lang) -> String {
    lang.count(
        count,
        phrase!("one chord", "un accordo", "ein Akkord", "un accord", "un acorde"),
        phrase!("{0} chords", "{0} accordi", "{0} Akkorde", "{0} accords", "{0} acordes"),
    )
}

/// "one fault", "2 faults".
pub(super) fn faults(count: usize, lang: Lang) -> String {
    lang.count(
        count,
        phrase!("one fault", "un errore", "ein Fehler", "une faute", "una falta"),
        phrase!("{0} faults", "{0} errori", "{0} Fehler", "{0} fautes", "{0} faltas"),
    )
}

/// "one caution", "2 cautions".
pub(super) fn cautions(count: usize, lang: Lang) -> String {
    lang.count(
        count,
        phrase!(
            "one caution",
            "un’avvertenza",
            "ein Hinweis",
            "un avertissement",
            "una advertencia"
        ),
        phrase!(
            "{0} cautions",
            "{0} avvertenze",
            "{0} Hinweise",
            "{0} avertissements",
            "{0} advertencias"
        ),
    )
}
