//! What is asked, as the task on the page where the teacher wrote none.

use super::{in_position, with_cadence};
use crate::lesson::{Ask, Measure, MotionLimit, Naming};
use crate::phrase;
use crate::words::Lang;
use crate::words::shape::list;

/// The ask as one or two sentences.
pub fn ask(ask: &Ask, lang: Lang) -> String {
    let fixed = match ask {
        Ask::Figures(measure) => {
            let how = lang.say(match measure {
                Measure::Complete => phrase!(
                    "Any chords that you can play will do.",
                    "Va bene qualsiasi accordo che tu possa suonare.",
                    "Alle spielbaren Akkorde sind recht.",
                    "Tous les accords que vous pouvez jouer conviennent.",
                    "Vale cualquier acorde que puedas tocar."
                ),
                Measure::Accepted => phrase!(
                    "Follow the octave rule and the cadences.",
                    "Segui la regola dell’ottava e le cadenze.",
                    "Folgen Sie der Oktavregel und den Kadenzen.",
                    "Suivez la règle de l’octave et les cadences.",
                    "Sigue la regla de la octava y las cadencias."
                ),
                Measure::AsModel => phrase!(
                    "Find the very chords of the model.",
                    "Trova proprio gli accordi del modello.",
                    "Finden Sie genau die Akkorde des Musters.",
                    "Trouvez les accords mêmes du modèle.",
                    "Encuentra los acordes mismos del modelo."
                ),
            });
            return lang.tell(
                phrase!(
                    "Harmonise this bass: figure every note. {0}",
                    "Armonizza questo basso: cifra ogni nota. {0}",
                    "Harmonisieren Sie diesen Bass: Beziffern Sie jeden Ton. {0}",
                    "Harmonisez cette basse : chiffrez chaque note. {0}",
                    "Armoniza este bajo: cifra cada nota. {0}"
                ),
                [&how],
            );
        }
        Ask::Soprano { position, motions } => {
            let start = position.map_or(String::new(), |it| format!(" {}", in_position(it, lang)));
            let how = match motions {
                MotionLimit::ContraryOrTenths => lang.say(phrase!(
                    " Move only against the bass or in tenths with it.",
                    " Muoviti solo contro il basso o in decime con esso.",
                    " Nur gegen den Bass oder in Dezimen mit ihm gehen.",
                    " N’allez que contre la basse ou en dixièmes avec elle.",
                    " Muévete solo contra el bajo o en décimas con él."
                )),
                MotionLimit::Any => "",
            };
            return lang.tell(
                phrase!(
                    "Give this bass a soprano{0}.{1}",
                    "Dai a questo basso un soprano{0}.{1}",
                    "Geben Sie diesem Bass einen Sopran{0}.{1}",
                    "Donnez à cette basse un soprano{0}.{1}",
                    "Da a este bajo un soprano{0}.{1}"
                ),
                [&start, &how],
            );
        }
        Ask::FindFaults(Naming::Named) => phrase!(
            "Find the faults planted in the outer voices: point at each and name its rule.",
            "Trova gli errori nascosti nelle voci estreme: indica ciascuno e nominane la regola.",
            "Finden Sie die versteckten Fehler der Außenstimmen: Zeigen Sie auf jeden und nennen Sie seine Regel.",
            "Trouvez les fautes cachées dans les voix extrêmes : montrez chacune et nommez sa règle.",
            "Encuentra las faltas escondidas en las voces extremas: señala cada una y nombra su regla."
        ),
        Ask::FindFaults(Naming::Place) => phrase!(
            "Find the faults planted in the outer voices: point at each.",
            "Trova gli errori nascosti nelle voci estreme: indica ciascuno.",
            "Finden Sie die versteckten Fehler der Außenstimmen: Zeigen Sie auf jeden.",
            "Trouvez les fautes cachées dans les voix extrêmes : montrez chacune.",
            "Encuentra las faltas escondidas en las voces extremas: señala cada una."
        ),
        Ask::Handfuls { least } => {
            let phrase = phrase!(
                "Open these close chords into two handfuls, with at least {0} in each hand.",
                "Apri questi accordi stretti in due prese, con almeno {0} per mano.",
                "Öffnen Sie diese engen Akkorde in zwei Griffe, mit mindestens {0} in jeder Hand.",
                "Ouvrez ces accords serrés en deux poignées, avec au moins {0} dans chaque main.",
                "Abre estos acordes cerrados en dos posturas, con al menos {0} en cada mano."
            );
            let notes = lang.count(
                usize::from((*least).clamp(1, 5)),
                phrase!("one note", "una nota", "einem Ton", "une note", "una nota"),
                phrase!("{0} notes", "{0} note", "{0} Tönen", "{0} notes", "{0} notas"),
            );
            return lang.tell(phrase, [&notes]);
        }
        Ask::Roll { acciaccaturas: 0 } => phrase!(
            "Roll these chords.",
            "Arpeggia questi accordi.",
            "Brechen Sie diese Akkorde.",
            "Arpégez ces accords.",
            "Arpegia estos acordes."
        ),
        Ask::Roll { acciaccaturas } => {
            let count = lang.count(
                usize::from(*acciaccaturas),
                phrase!(
                    "one acciaccatura",
                    "un’acciaccatura",
                    "einer Acciaccatura",
                    "une acciaccature",
                    "una acciaccatura"
                ),
                phrase!(
                    "{0} acciaccaturas",
                    "{0} acciaccature",
                    "{0} Acciaccaturen",
                    "{0} acciaccatures",
                    "{0} acciaccaturas"
                ),
            );
            return lang.tell(
                phrase!(
                    "Roll these chords, with at least {0}.",
                    "Arpeggia questi accordi, con almeno {0}.",
                    "Brechen Sie diese Akkorde, mit mindestens {0}.",
                    "Arpégez ces accords, avec au moins {0}.",
                    "Arpegia estos acordes, con al menos {0}."
                ),
                [&count],
            );
        }
        Ask::Keys(keys) if !keys.is_empty() => {
            let keys: Vec<String> = keys.iter().map(|key| lang.tonality(*key)).collect();
            return lang.tell(
                phrase!(
                    "Play this in {0}.",
                    "Suona questo in {0}.",
                    "Spielen Sie dies in {0}.",
                    "Jouez ceci en {0}.",
                    "Toca esto en {0}."
                ),
                [&list(&keys, lang)],
            );
        }
        Ask::Keys(_) => phrase!(
            "Play this in any key.",
            "Suona questo in qualsiasi tono.",
            "Spielen Sie dies in irgendeiner Tonart.",
            "Jouez ceci dans n’importe quel ton.",
            "Toca esto en cualquier tono."
        ),
        Ask::Finish(kind) => {
            return lang.tell(
                phrase!(
                    "Finish the phrase {0}.",
                    "Concludi la frase {0}.",
                    "Beenden Sie die Phrase {0}.",
                    "Achevez la phrase {0}.",
                    "Termina la frase {0}."
                ),
                [&with_cadence(*kind, lang)],
            );
        }
        Ask::Free => phrase!(
            "Go on from here as you like.",
            "Prosegui da qui come vuoi.",
            "Gehen Sie von hier weiter, wie Sie mögen.",
            "Continuez d’ici comme il vous plaît.",
            "Sigue desde aquí como quieras."
        ),
    };
    lang.say(fixed).to_string()
}
