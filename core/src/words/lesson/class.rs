//! The table of a class, in words.

use super::summary::outcome;
use crate::lesson::{Row, Set, Status, csv};
use crate::phrase;
use crate::words::{Lang, link_error};

/// The heads of the table's columns: the name, four columns for each exercise,
/// all faults, all minutes, and a remark.
pub fn class_head(set: &Set, lang: Lang) -> Vec<String> {
    let mut heads = vec![lang.say(phrase!("Name", "Nome", "Name", "Nom", "Nombre")).to_string()];
    let of_each = [
        phrase!("Exercise {0}", "Esercizio {0}", "Aufgabe {0}", "Exercice {0}", "Ejercicio {0}"),
        phrase!("Faults {0}", "Errori {0}", "Fehler {0}", "Fautes {0}", "Faltas {0}"),
        phrase!("To do {0}", "Da fare {0}", "Zu tun {0}", "À faire {0}", "Por hacer {0}"),
        phrase!(
            "Cautions {0}",
            "Avvertenze {0}",
            "Hinweise {0}",
            "Avertissements {0}",
            "Advertencias {0}"
        ),
    ];
    for number in 1..=set.exercises.len() {
        heads.extend(of_each.map(|head| lang.tell(head, [&number])));
    }
    let of_all = [
        phrase!("Faults", "Errori", "Fehler", "Fautes", "Faltas"),
        phrase!("Minutes", "Minuti", "Minuten", "Minutes", "Minutos"),
        phrase!("Remark", "Nota", "Bemerkung", "Remarque", "Observación"),
    ];
    heads.extend(of_all.map(|head| lang.say(head).to_string()));
    heads
}

/// One row of the table, cell by cell under [`class_head`].
pub fn class_line(row: &Row, set: &Set, lang: Lang) -> Vec<String> {
    let mut cells = vec![row.student.clone()];
    for i in 0..set.exercises.len() {
        match row.cells.get(i) {
            Some(cell) => cells.extend([
                outcome(cell.outcome, lang).to_string(),
                cell.faults.to_string(),
                cell.to_do.to_string(),
                cell.cautions.to_string(),
            ]),
            None => cells.extend([const { String::new() }; 4]),
        }
    }
    let totals = match row.status {
        Status::Ready => [row.faults().to_string(), row.minutes().to_string()],
        Status::OtherSet | Status::NoAnswer | Status::Unreadable(_) => {
            [String::new(), String::new()]
        }
    };
    cells.extend(totals);
    cells.push(row_status(row.status, lang).to_string());
    cells
}

/// The whole table as comma-separated values (RFC 4180).
pub fn class_csv(rows: &[Row], set: &Set, lang: Lang) -> String {
    let mut lines = vec![class_head(set, lang)];
    lines.extend(rows.iter().map(|row| class_line(row, set, lang)));
    csv(lines.iter().map(Vec::as_slice))
}

/// What became of a link, as a sentence; empty where all is well.
pub fn row_status(status: Status, lang: Lang) -> &'static str {
    lang.say(match status {
        Status::Ready => return "",
        Status::Unreadable(error) => return link_error(error, lang),
        Status::OtherSet => phrase!(
            "These answers belong to another set of exercises.",
            "Queste risposte appartengono a un’altra serie di esercizi.",
            "Diese Antworten gehören zu einer anderen Aufgabenreihe.",
            "Ces réponses appartiennent à une autre série d’exercices.",
            "Estas respuestas son de otra serie de ejercicios."
        ),
        Status::NoAnswer => phrase!(
            "This link holds no answers.",
            "Questo collegamento non contiene risposte.",
            "Dieser Link enthält keine Antworten.",
            "Ce lien ne contient pas de réponses.",
            "Este enlace no contiene respuestas."
        ),
    })
}
