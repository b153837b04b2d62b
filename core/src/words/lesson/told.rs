//! Findings that keep the answer back: where the trouble is and of what kind; and
//! what a player is waited for, without the notes.

use super::findings::finding;
use crate::hands::HandTrouble;
use crate::lesson::{Finding, FindingKind, Told, Waiting};
use crate::phrase;
use crate::pitch::Tonality;
use crate::words::Lang;
use crate::words::shape::sentence;

/// The finding as one sentence that tells no more than this of it.
pub fn finding_told(it: &Finding, told: Told, lang: Lang) -> String {
    match (told, kept_back(it, told, lang)) {
        (Told::Place | Told::Advice, Some(said)) => sentence(&said),
        (Told::Place | Told::Advice, None) | (Told::All, _) => finding(it, lang),
    }
}

/// Whether there is an answer to be kept back, so that telling all says more.
pub fn finding_keeps_back(it: &Finding, lang: Lang) -> bool {
    kept_back(it, Told::Place, lang).is_some()
}

/// What is said of a finding whose whole sentence would give the answer away.
fn kept_back(it: &Finding, told: Told, lang: Lang) -> Option<String> {
    Some(match &it.kind {
        FindingKind::WrongChord { note, .. } => {
            let said = phrase!(
                "note {0}: this chord does not belong here",
                "nota {0}: questo accordo non ci va",
                "Ton {0}: dieser Akkord gehört nicht hierher",
                "note {0} : cet accord n’est pas à sa place",
                "nota {0}: este acorde no corresponde aquí"
            );
            lang.tell(said, [&(note + 1)])
        }
        FindingKind::WrongStages { note, has, wanted } => {
            let said = if has > wanted {
                phrase!(
                    "from note {0}: more chords than belong here",
                    "dalla nota {0}: più accordi di quanti ce ne vanno",
                    "ab Ton {0}: mehr Akkorde, als hierher gehören",
                    "à partir de la note {0} : plus d’accords qu’il n’en faut",
                    "desde la nota {0}: más acordes de los que corresponden"
                )
            } else {
                phrase!(
                    "from note {0}: fewer chords than belong here",
                    "dalla nota {0}: meno accordi di quanti ce ne vanno",
                    "ab Ton {0}: weniger Akkorde, als hierher gehören",
                    "à partir de la note {0} : moins d’accords qu’il n’en faut",
                    "desde la nota {0}: menos acordes de los que corresponden"
                )
            };
            lang.tell(said, [&(note + 1)])
        }
        FindingKind::Missed(fault) => match told {
            Told::Place => lang
                .say(phrase!(
                    "a planted fault is not found yet",
                    "un errore nascosto non è ancora trovato",
                    "ein versteckter Fehler ist noch nicht gefunden",
                    "une faute cachée n’est pas encore trouvée",
                    "queda una falta escondida por encontrar"
                ))
                .to_string(),
            Told::Advice | Told::All => {
                let said = phrase!(
                    "not found yet: a fault around chord {0}",
                    "non ancora trovato: un errore intorno all’accordo {0}",
                    "noch nicht gefunden: ein Fehler um Akkord {0}",
                    "pas encore trouvée : une faute autour de l’accord {0}",
                    "aún sin encontrar: una falta cerca del acorde {0}"
                );
                lang.tell(said, [&(fault.to + 1)])
            }
        },
        FindingKind::Misnamed { found, .. } => {
            let said = match found.rule {
                Some(_) => phrase!(
                    "chord {0}: there is a fault, but another than you named",
                    "accordo {0}: c’è un errore, ma non quello che hai detto",
                    "Akkord {0}: da ist ein Fehler, aber ein anderer als genannt",
                    "accord {0} : il y a une faute, mais pas celle que vous avez nommée",
                    "acorde {0}: hay una falta, pero no la que has nombrado"
                ),
                None => phrase!(
                    "chord {0}: there is a fault, and its rule is to be named",
                    "accordo {0}: c’è un errore, e va detta la sua regola",
                    "Akkord {0}: da ist ein Fehler, und seine Regel ist zu nennen",
                    "accord {0} : il y a une faute, et sa règle est à nommer",
                    "acorde {0}: hay una falta, y falta nombrar su regla"
                ),
            };
            lang.tell(said, [&(found.chord + 1)])
        }
        FindingKind::Hand(remark) => match remark.kind {
            HandTrouble::Incomplete { .. } => {
                let said = phrase!(
                    "chord {0}: a note of the chord is missing",
                    "accordo {0}: manca una nota dell’accordo",
                    "Akkord {0}: ein Ton des Akkords fehlt",
                    "accord {0} : il manque une note de l’accord",
                    "acorde {0}: falta una nota del acorde"
                );
                lang.tell(said, [&(remark.chord + 1)])
            }
            _ => return None,
        },
        FindingKind::KeyBass { tonality, note, has: Some(_), wanted: Some(_) } => {
            let said = phrase!(
                "in {0}, note {1}: not the bass note that belongs here",
                "in {0}, nota {1}: non è la nota di basso che ci va",
                "in {0}, Ton {1}: nicht der Basston, der hierher gehört",
                "en {0}, note {1} : ce n’est pas la note de basse qui convient",
                "en {0}, nota {1}: no es la nota del bajo que corresponde"
            );
            lang.tell(said, [&named(*tonality, lang), &(note + 1)])
        }
        FindingKind::KeyBass { tonality, has: None, .. } => {
            let said = phrase!(
                "in {0} the bass stops too early",
                "in {0} il basso si ferma troppo presto",
                "in {0} hört der Bass zu früh auf",
                "en {0} la basse s’arrête trop tôt",
                "en {0} el bajo se detiene demasiado pronto"
            );
            lang.tell(said, [&named(*tonality, lang)])
        }
        FindingKind::KeyBass { tonality, wanted: None, .. } => {
            let said = phrase!(
                "in {0} the bass goes on past the end",
                "in {0} il basso continua oltre la fine",
                "in {0} geht der Bass über das Ende hinaus",
                "en {0} la basse continue au-delà de la fin",
                "en {0} el bajo sigue más allá del final"
            );
            lang.tell(said, [&named(*tonality, lang)])
        }
        FindingKind::KeyChord { tonality, chord, trouble: HandTrouble::Incomplete { .. } } => {
            let said = phrase!(
                "in {0}, chord {1}: a note of the chord is missing",
                "in {0}, accordo {1}: manca una nota dell’accordo",
                "in {0}, Akkord {1}: ein Ton des Akkords fehlt",
                "en {0}, accord {1} : il manque une note de l’accord",
                "en {0}, acorde {1}: falta una nota del acorde"
            );
            lang.tell(said, [&named(*tonality, lang), &(chord + 1)])
        }
        FindingKind::Outer(_)
        | FindingKind::Figures(_)
        | FindingKind::GivenChanged { .. }
        | FindingKind::NoFigures { .. }
        | FindingKind::NoSoprano
        | FindingKind::WrongPosition { .. }
        | FindingKind::Motion(_)
        | FindingKind::NoHandful
        | FindingKind::ThinHand { .. }
        | FindingKind::FewAcciaccaturas { .. }
        | FindingKind::KeyMissing(_)
        | FindingKind::KeyUnplayed { .. }
        | FindingKind::KeyChord { .. }
        | FindingKind::KeyOuter { .. }
        | FindingKind::NoCadence { .. }
        | FindingKind::NoFaultThere(_) => return None,
    })
}

/// Several things of one kind that are still to be made, from the first to the last
/// (counted from 1), as one sentence; none where they are not told together.
pub fn still_to_do(kind: &FindingKind, from: usize, to: usize, lang: Lang) -> Option<String> {
    let said = match kind {
        FindingKind::NoFigures { .. } => phrase!(
            "Notes {0}–{1} have no figures yet.",
            "Le note {0}–{1} non hanno ancora cifre.",
            "Die Töne {0}–{1} haben noch keine Ziffern.",
            "Les notes {0}–{1} n’ont pas encore de chiffres.",
            "Las notas {0}–{1} aún no tienen cifras."
        ),
        FindingKind::NoSoprano => phrase!(
            "Chords {0}–{1}: no soprano note of yours yet.",
            "Accordi {0}–{1}: ancora nessuna nota tua al soprano.",
            "Akkorde {0}–{1}: noch kein eigener Sopranton.",
            "Accords {0}–{1} : pas encore de note de soprano de votre main.",
            "Acordes {0}–{1}: aún sin nota tuya en el soprano."
        ),
        FindingKind::NoHandful => phrase!(
            "Chords {0}–{1}: no handful of yours yet.",
            "Accordi {0}–{1}: ancora nessuna presa tua.",
            "Akkorde {0}–{1}: noch kein eigener Griff.",
            "Accords {0}–{1} : pas encore de poignée de votre main.",
            "Acordes {0}–{1}: aún ninguna postura tuya."
        ),
        _ => return None,
    };
    Some(lang.tell(said, [&from, &to]))
}

/// How much is still to be made, as one sentence.
pub(super) fn to_do(count: usize, lang: Lang) -> String {
    let one = phrase!(
        "One thing is still to do.",
        "Resta una cosa da fare.",
        "Eines ist noch zu tun.",
        "Il reste une chose à faire.",
        "Queda una cosa por hacer."
    );
    let more = phrase!(
        "{0} things are still to do.",
        "Restano {0} cose da fare.",
        "{0} Dinge sind noch zu tun.",
        "Il reste {0} choses à faire.",
        "Quedan {0} cosas por hacer."
    );
    lang.count(count, one, more)
}

/// What a player is waited for without naming the notes, as one sentence.
pub fn waiting_untold(waiting: &Waiting, spelled: Tonality, lang: Lang) -> String {
    let (missing, foreign, wrong_bass) = match waiting {
        Waiting::Rest | Waiting::Done => return super::waiting(waiting, spelled, lang),
        Waiting::Rolling { missing, foreign, wrong_bass } => {
            (missing.len(), foreign.len(), wrong_bass.is_some())
        }
    };
    let mut parts = Vec::new();
    if wrong_bass {
        let said = phrase!(
            "the lowest key is not the bass",
            "il tasto più basso non è il basso",
            "die tiefste Taste ist nicht der Bass",
            "la touche la plus basse n’est pas la basse",
            "la tecla más grave no es el bajo"
        );
        parts.push(lang.say(said).to_string());
    }
    if foreign > 0 {
        let one = phrase!(
            "one key held does not belong here",
            "un tasto tenuto non ci va",
            "eine gehaltene Taste gehört nicht hierher",
            "une touche tenue n’est pas à sa place",
            "una tecla mantenida no corresponde aquí"
        );
        let more = phrase!(
            "{0} keys held do not belong here",
            "{0} tasti tenuti non ci vanno",
            "{0} gehaltene Tasten gehören nicht hierher",
            "{0} touches tenues ne sont pas à leur place",
            "{0} teclas mantenidas no corresponden aquí"
        );
        parts.push(lang.count(foreign, one, more));
    }
    if missing > 0 {
        let one = phrase!(
            "one note of the chord is still missing",
            "manca ancora una nota dell’accordo",
            "ein Ton des Akkords fehlt noch",
            "il manque encore une note de l’accord",
            "falta todavía una nota del acorde"
        );
        let more = phrase!(
            "{0} notes of the chord are still missing",
            "mancano ancora {0} note dell’accordo",
            "{0} Töne des Akkords fehlen noch",
            "il manque encore {0} notes de l’accord",
            "faltan todavía {0} notas del acorde"
        );
        parts.push(lang.count(missing, one, more));
    }
    if parts.is_empty() {
        super::waiting(waiting, spelled, lang)
    } else {
        sentence(&parts.join("; "))
    }
}

fn named(tonality: Tonality, lang: Lang) -> String {
    lang.tonality(tonality)
}
