//! Playing along and drills, in words.

use super::cadence;
use crate::bass::BassMotion;
use crate::harmony::Direction;
use crate::lesson::Waiting;
use crate::lesson::drill::{EarAnswer, EarQuestion, Item, KeyOrder, Question};
use crate::phrase;
use crate::pitch::{Degree, Key, Mode, Tonality};
use crate::words::harmony::degree_name;
use crate::words::shape::{capital, list, sentence};
use crate::words::{Lang, Phrase};

/// What a player is waited for, as one sentence; keys are named as `spelled` in.
pub fn waiting(waiting: &Waiting, spelled: Tonality, lang: Lang) -> String {
    let name = |key: &Key| lang.pitch(spelled.spell(*key));
    let fixed = match waiting {
        Waiting::Rest => phrase!(
            "Play the next chord, in your own time.",
            "Suona l’accordo seguente, con comodo.",
            "Den nächsten Akkord spielen, in Ruhe.",
            "Jouez l’accord suivant, à votre rythme.",
            "Toca el acorde siguiente, a tu ritmo."
        ),
        Waiting::Done => phrase!(
            "That was the last chord.",
            "Era l’ultimo accordo.",
            "Das war der letzte Akkord.",
            "C’était le dernier accord.",
            "Era el último acorde."
        ),
        Waiting::Rolling { missing, foreign, wrong_bass } => {
            let mut parts = Vec::new();
            if let Some(key) = wrong_bass {
                parts.push(lang.tell(
                    phrase!(
                        "{0} is lowest, and it is not the bass",
                        "{0} è il più grave, e non è il basso",
                        "{0} liegt unten und ist nicht der Bass",
                        "{0} est au plus grave, et ce n’est pas la basse",
                        "{0} es lo más grave, y no es el bajo"
                    ),
                    [&name(key)],
                ));
            }
            if !foreign.is_empty() {
                let keys: Vec<String> = foreign.iter().map(name).collect();
                let phrase = if keys.len() == 1 {
                    phrase!(
                        "{0} does not belong here",
                        "{0} non va qui",
                        "{0} gehört nicht hierher",
                        "{0} n’a pas sa place ici",
                        "{0} no va aquí"
                    )
                } else {
                    phrase!(
                        "{0} do not belong here",
                        "{0} non vanno qui",
                        "{0} gehören nicht hierher",
                        "{0} n’ont pas leur place ici",
                        "{0} no van aquí"
                    )
                };
                parts.push(lang.tell(phrase, [&list(&keys, lang)]));
            }
            if !missing.is_empty() {
                let tones: Vec<String> = missing.iter().map(|class| lang.note(*class)).collect();
                let phrase = if tones.len() == 1 {
                    phrase!(
                        "{0} still missing",
                        "manca ancora {0}",
                        "{0} fehlt noch",
                        "il manque encore {0}",
                        "falta aún {0}"
                    )
                } else {
                    phrase!(
                        "{0} still missing",
                        "mancano ancora {0}",
                        "{0} fehlen noch",
                        "il manque encore {0}",
                        "faltan aún {0}"
                    )
                };
                parts.push(lang.tell(phrase, [&list(&tones, lang)]));
            }
            if !parts.is_empty() {
                return sentence(&parts.join("; "));
            }
            strike()
        }
    };
    lang.say(fixed).to_string()
}

fn strike() -> Phrase {
    phrase!(
        "Strike the bass to begin this chord.",
        "Batti il basso per cominciare questo accordo.",
        "Den Bass anschlagen, um diesen Akkord zu beginnen.",
        "Frappez la basse pour commencer cet accord.",
        "Toca el bajo para empezar este acorde."
    )
}

/// A drill's question as one or two sentences.
pub fn drill_question(question: &Question, lang: Lang) -> String {
    let home = question.sketch.tonality.map_or(String::new(), |home| lang.tonality(home));
    match question.item {
        Item::Octave { leaves, degree, .. } => lang.tell(
            match leaves {
                Direction::Up => phrase!(
                    "In {0} the {1} rises by step. Which chord does it take?",
                    "In {0} il {1} sale di grado. Che accordo prende?",
                    "In {0} steigt die {1} schrittweise. Welchen Akkord trägt sie?",
                    "En {0}, le {1} monte par degré. Quel accord prend-il ?",
                    "En {0} el {1} sube por grado. ¿Qué acorde toma?"
                ),
                Direction::Down => phrase!(
                    "In {0} the {1} falls by step. Which chord does it take?",
                    "In {0} il {1} scende di grado. Che accordo prende?",
                    "In {0} fällt die {1} schrittweise. Welchen Akkord trägt sie?",
                    "En {0}, le {1} descend par degré. Quel accord prend-il ?",
                    "En {0} el {1} baja por grado. ¿Qué acorde toma?"
                ),
            },
            [&home, &degree_name(degree, lang)],
        ),
        Item::Motion { motion, .. } => lang.tell(
            phrase!(
                "In {0}, play the bass that {1} and harmonise it.",
                "In {0} suona il basso che {1} e armonizzalo.",
                "In {0} den Bass, der {1}, spielen und harmonisieren.",
                "En {0}, jouez la basse qui {1} et harmonisez-la.",
                "En {0} toca el bajo que {1} y armonízalo."
            ),
            [&home, &lang.say(motion_name(motion))],
        ),
        Item::Cadence { cadence: kind, .. } => lang.tell(
            phrase!(
                "In {0}, play {1}.",
                "In {0} suona {1}.",
                "In {0} spielen: {1}.",
                "En {0}, jouez {1}.",
                "En {0} toca {1}."
            ),
            [&home, &cadence(kind, lang)],
        ),
    }
}

/// What the ear is asked.
pub fn ear_prompt(question: &EarQuestion, lang: Lang) -> &'static str {
    lang.say(match question.choices.get(question.answer) {
        Some(EarAnswer::Motion(_)) => phrase!(
            "How does the bass move?",
            "Come si muove il basso?",
            "Wie geht der Bass?",
            "Comment va la basse ?",
            "¿Cómo se mueve el bajo?"
        ),
        Some(EarAnswer::Degree(_)) => phrase!(
            "After the cadence: which degree is in the bass?",
            "Dopo la cadenza: che grado è al basso?",
            "Nach der Kadenz: Welche Stufe ist im Bass?",
            "Après la cadence : quel degré est à la basse ?",
            "Tras la cadencia: ¿qué grado está en el bajo?"
        ),
        Some(EarAnswer::Cadence(_)) => phrase!(
            "Which cadence is this?",
            "Che cadenza è questa?",
            "Welche Kadenz ist das?",
            "Quelle cadence est-ce ?",
            "¿Qué cadencia es esta?"
        ),
        None => return "",
    })
}

/// One choice of the ear's question.
pub fn ear_choice(choice: EarAnswer, lang: Lang) -> String {
    match choice {
        EarAnswer::Motion(motion) => lang.tell(
            phrase!("it {0}", "{0}", "er {0}", "elle {0}", "{0}"),
            [&lang.say(motion_name(motion))],
        ),
        EarAnswer::Degree(degree) => the_degree(degree, lang),
        EarAnswer::Cadence(kind) => cadence(kind, lang).to_string(),
    }
}

fn the_degree(degree: Degree, lang: Lang) -> String {
    lang.tell(
        phrase!("the {0}", "il {0}", "die {0}", "le {0}", "el {0}"),
        [&degree_name(degree, lang)],
    )
}

/// How a motion goes, to follow "the bass" or "the bass that".
fn motion_name(motion: BassMotion) -> Phrase {
    // In German the verb stands last, so that both "er" and "der" can go before.
    match motion {
        BassMotion::StepsUp => phrase!(
            "rises by step",
            "sale di grado",
            "schrittweise steigt",
            "monte par degrés",
            "sube por grados"
        ),
        BassMotion::StepsDown => phrase!(
            "falls by step",
            "scende di grado",
            "schrittweise fällt",
            "descend par degrés",
            "baja por grados"
        ),
        BassMotion::ThirdsDownSecondsUp => phrase!(
            "falls a third and rises a second",
            "scende di terza e sale di seconda",
            "eine Terz fällt und eine Sekunde steigt",
            "descend d’une tierce et monte d’une seconde",
            "baja una tercera y sube una segunda"
        ),
        BassMotion::FourthsDownSecondsUp => phrase!(
            "falls a fourth and rises a second",
            "scende di quarta e sale di seconda",
            "eine Quarte fällt und eine Sekunde steigt",
            "descend d’une quarte et monte d’une seconde",
            "baja una cuarta y sube una segunda"
        ),
        BassMotion::FourthsUpFifthsDown => phrase!(
            "rises a fourth and falls a fifth",
            "sale di quarta e scende di quinta",
            "eine Quarte steigt und eine Quinte fällt",
            "monte d’une quarte et descend d’une quinte",
            "sube una cuarta y baja una quinta"
        ),
        BassMotion::FifthsUpFourthsDown => phrase!(
            "rises a fifth and falls a fourth",
            "sale di quinta e scende di quarta",
            "eine Quinte steigt und eine Quarte fällt",
            "monte d’une quinte et descend d’une quarte",
            "sube una quinta y baja una cuarta"
        ),
        BassMotion::ThirdsUpSecondsDown => phrase!(
            "rises a third and falls a second",
            "sale di terza e scende di seconda",
            "eine Terz steigt und eine Sekunde fällt",
            "monte d’une tierce et descend d’une seconde",
            "sube una tercera y baja una segunda"
        ),
        BassMotion::ThirdsDownFourthsUp => phrase!(
            "falls a third and rises a fourth",
            "scende di terza e sale di quarta",
            "eine Terz fällt und eine Quarte steigt",
            "descend d’une tierce et monte d’une quarte",
            "baja una tercera y sube una cuarta"
        ),
        BassMotion::ThirdsDown => phrase!(
            "falls in thirds",
            "scende per terze",
            "in Terzen fällt",
            "descend par tierces",
            "baja por terceras"
        ),
        BassMotion::RepeatedRising => phrase!(
            "strikes each note twice, rising by step",
            "batte ogni nota due volte, salendo di grado",
            "jeden Ton zweimal anschlägt und schrittweise steigt",
            "frappe chaque note deux fois, en montant par degrés",
            "toca cada nota dos veces, subiendo por grados"
        ),
        BassMotion::TiedFalling => phrase!(
            "ties each note over, falling by step",
            "lega ogni nota, scendendo di grado",
            "jeden Ton überbindet und schrittweise fällt",
            "lie chaque note, en descendant par degrés",
            "liga cada nota, bajando por grados"
        ),
        BassMotion::ChromaticUp => phrase!(
            "rises by semitones",
            "sale per semitoni",
            "in Halbtönen steigt",
            "monte par demi-tons",
            "sube por semitonos"
        ),
        BassMotion::ChromaticDown => phrase!(
            "falls by semitones",
            "scende per semitoni",
            "in Halbtönen fällt",
            "descend par demi-tons",
            "baja por semitonos"
        ),
    }
}

/// An item's name in a list.
pub fn drill_item(item: Item, lang: Lang) -> String {
    let (mode, what) = match item {
        Item::Octave { mode, leaves, degree } => {
            let phrase = match leaves {
                Direction::Up => phrase!(
                    "{0}, rising",
                    "{0}, salendo",
                    "{0}, steigend",
                    "{0}, en montant",
                    "{0}, subiendo"
                ),
                Direction::Down => phrase!(
                    "{0}, falling",
                    "{0}, scendendo",
                    "{0}, fallend",
                    "{0}, en descendant",
                    "{0}, bajando"
                ),
            };
            (mode, lang.tell(phrase, [&the_degree(degree, lang)]))
        }
        Item::Motion { mode, motion } => {
            let phrase = phrase!(
                "a bass that {0}",
                "un basso che {0}",
                "ein Bass, der {0}",
                "une basse qui {0}",
                "un bajo que {0}"
            );
            (mode, lang.tell(phrase, [&lang.say(motion_name(motion))]))
        }
        Item::Cadence { mode, cadence: kind } => (mode, cadence(kind, lang).to_string()),
    };
    let phrase = match mode {
        Mode::Major => {
            phrase!(
                "{0} in major",
                "{0} in maggiore",
                "{0} in Dur",
                "{0} en majeur",
                "{0} en mayor"
            )
        }
        Mode::Minor => {
            phrase!("{0} in minor", "{0} in minore", "{0} in Moll", "{0} en mineur", "{0} en menor")
        }
    };
    lang.tell(phrase, [&what])
}

/// The name of an order of keys.
pub fn key_order(order: KeyOrder, lang: Lang) -> &'static str {
    lang.say(match order {
        KeyOrder::FifthsUp => phrase!(
            "by fifths up",
            "per quinte in su",
            "in Quinten aufwärts",
            "par quintes en montant",
            "por quintas hacia arriba"
        ),
        KeyOrder::FifthsDown => phrase!(
            "by fifths down",
            "per quinte in giù",
            "in Quinten abwärts",
            "par quintes en descendant",
            "por quintas hacia abajo"
        ),
        KeyOrder::SemitonesUp => phrase!(
            "by semitones",
            "per semitoni",
            "in Halbtönen",
            "par demi-tons",
            "por semitonos"
        ),
        KeyOrder::TonesUp => phrase!(
            "by whole tones",
            "per toni interi",
            "in Ganztönen",
            "par tons entiers",
            "por tonos enteros"
        ),
        KeyOrder::Shuffled(_) => phrase!(
            "in any order",
            "in ordine sparso",
            "in bunter Folge",
            "en désordre",
            "en cualquier orden"
        ),
    })
}

/// How much there is to practise today, as one sentence.
pub fn drill_due(due: usize, lang: Lang) -> String {
    if due == 0 {
        return lang
            .say(phrase!(
                "Nothing is due today.",
                "Oggi non c’è nulla da ripassare.",
                "Heute ist nichts fällig.",
                "Rien n’est à revoir aujourd’hui.",
                "Hoy no toca nada."
            ))
            .to_string();
    }
    let said = lang.count(
        due,
        phrase!(
            "one thing due today.",
            "una cosa da ripassare oggi.",
            "heute ist eines fällig.",
            "une chose à revoir aujourd’hui.",
            "hoy toca una cosa."
        ),
        phrase!(
            "{0} things due today.",
            "{0} cose da ripassare oggi.",
            "heute sind {0} fällig.",
            "{0} choses à revoir aujourd’hui.",
            "hoy tocan {0} cosas."
        ),
    );
    capital(&said)
}
