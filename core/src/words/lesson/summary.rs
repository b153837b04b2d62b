//! A whole check in a few sentences.

use super::{cautions, chords, faults, figures};
use crate::lesson::{Difference, Outcome, Report};
use crate::phrase;
use crate::words::Lang;
use crate::words::shape::{capital, sentence};

/// The check as a few sentences: what is done, how many faults, how it differs
/// from the model.
pub fn report_summary(report: &Report, lang: Lang) -> String {
    let asked = report.results.len();
    let begun = report.results.iter().any(|result| result.outcome != Outcome::Blank);
    if asked > 0 && !begun {
        return lang
            .say(phrase!(
                "Nothing has been done yet.",
                "Non è ancora stato fatto nulla.",
                "Es ist noch nichts getan.",
                "Rien n’a encore été fait.",
                "Aún no se ha hecho nada."
            ))
            .to_string();
    }
    let mut said = vec![done(report.done(), asked, lang), found(report, lang)];
    if report.to_do() > 0 {
        said.push(super::told::to_do(report.to_do(), lang));
    }
    let count = report.differences.len();
    if count > 0 {
        let phrase = if count == 1 {
            phrase!(
                "{0} goes another way than the model, which need not be wrong.",
                "{0} va per un’altra via rispetto al modello, il che non è per forza sbagliato.",
                "{0} geht anders als im Muster, was nicht falsch sein muss.",
                "{0} va autrement que dans le modèle, ce qui n’est pas forcément faux.",
                "{0} va de otro modo que en el modelo, lo que no tiene por qué estar mal."
            )
        } else {
            phrase!(
                "{0} go another way than the model, which need not be wrong.",
                "{0} vanno per un’altra via rispetto al modello, il che non è per forza sbagliato.",
                "{0} gehen anders als im Muster, was nicht falsch sein muss.",
                "{0} vont autrement que dans le modèle, ce qui n’est pas forcément faux.",
                "{0} van de otro modo que en el modelo, lo que no tiene por qué estar mal."
            )
        };
        said.push(lang.tell(phrase, [&capital(&chords(count, lang))]));
    }
    said.join(" ")
}

fn done(done: usize, asked: usize, lang: Lang) -> String {
    match (done, asked) {
        (_, 0) => lang.say(phrase!(
            "Nothing was asked.",
            "Non si chiedeva nulla.",
            "Es war nichts verlangt.",
            "Rien n’était demandé.",
            "No se pedía nada."
        )),
        (1, 1) => lang.say(phrase!("Done.", "Fatto.", "Erledigt.", "Fait.", "Hecho.")),
        (0, 1) => lang.say(phrase!(
            "Not done yet.",
            "Non ancora fatto.",
            "Noch nicht erledigt.",
            "Pas encore fait.",
            "Todavía no está hecho."
        )),
        (done, asked) if done == asked => {
            return lang.tell(
                phrase!(
                    "All {0} things asked are done.",
                    "Tutte le {0} richieste sono soddisfatte.",
                    "Alle {0} verlangten Dinge sind erledigt.",
                    "Les {0} choses demandées sont toutes faites.",
                    "Las {0} cosas pedidas están hechas."
                ),
                [&asked],
            );
        }
        (done, asked) => {
            return lang.tell(
                phrase!(
                    "{0} of {1} things asked are done.",
                    "{0} richieste su {1} sono soddisfatte.",
                    "{0} von {1} verlangten Dingen sind erledigt.",
                    "{0} choses demandées sur {1} sont faites.",
                    "{0} de {1} cosas pedidas están hechas."
                ),
                [&done, &asked],
            );
        }
    }
    .to_string()
}

fn found(report: &Report, lang: Lang) -> String {
    match (report.faults(), report.cautions()) {
        (0, 0) => lang
            .say(phrase!(
                "No faults.",
                "Nessun errore.",
                "Keine Fehler.",
                "Aucune faute.",
                "Ninguna falta."
            ))
            .to_string(),
        (0, count) => lang.tell(
            phrase!(
                "No faults, {0}.",
                "Nessun errore, {0}.",
                "Keine Fehler, {0}.",
                "Aucune faute, {0}.",
                "Ninguna falta, {0}."
            ),
            [&cautions(count, lang)],
        ),
        (count, 0) => sentence(&faults(count, lang)),
        (wrong, doubtful) => {
            let both = [faults(wrong, lang), cautions(doubtful, lang)];
            sentence(&crate::words::shape::list(&both, lang))
        }
    }
}

/// A difference from the model as one sentence, chords counted from 1.
pub fn difference(difference: &Difference, lang: Lang) -> String {
    let mut parts = Vec::new();
    if let Some((has, model)) = difference.bass {
        parts.push(lang.tell(
            phrase!(
                "{0} in the bass where the model has {1}",
                "{0} al basso dove il modello ha {1}",
                "{0} im Bass, wo das Muster {1} hat",
                "{0} à la basse où le modèle a {1}",
                "{0} en el bajo donde el modelo tiene {1}"
            ),
            [&lang.pitch(has), &lang.pitch(model)],
        ));
    }
    if let Some((has, model)) = &difference.figures {
        parts.push(lang.tell(
            phrase!(
                "{0} where the model has {1}",
                "{0} dove il modello ha {1}",
                "{0}, im Muster {1}",
                "{0} où le modèle a {1}",
                "{0} donde el modelo tiene {1}"
            ),
            [&figures(has, lang), &figures(model, lang)],
        ));
    }
    if let Some((has, model)) = difference.soprano {
        parts.push(lang.tell(
            phrase!(
                "{0} on top where the model has {1}",
                "{0} in alto dove il modello ha {1}",
                "{0} oben, wo das Muster {1} hat",
                "{0} en haut où le modèle a {1}",
                "{0} arriba donde el modelo tiene {1}"
            ),
            [&lang.pitch(has), &lang.pitch(model)],
        ));
    }
    sentence(&crate::words::hands::at_chord(difference.chord, &parts.join("; "), lang))
}

/// An outcome in a word or two.
pub fn outcome(outcome: Outcome, lang: Lang) -> &'static str {
    lang.say(match outcome {
        Outcome::Blank => {
            phrase!("not begun", "non iniziato", "nicht begonnen", "pas commencé", "sin empezar")
        }
        Outcome::NotYet => phrase!(
            "not done yet",
            "non ancora fatto",
            "noch nicht erledigt",
            "pas encore fait",
            "todavía no"
        ),
        Outcome::Done => phrase!("done", "fatto", "erledigt", "fait", "hecho"),
    })
}
