//! The inner voices, and notes set freely, in words.

use super::Lang;
use crate::phrase;
use crate::pitch::Pitch;

/// How many fifths and octaves there are between other voices than the outer two;
/// information, not a fault. The permission is that of an anonymous Roman manuscript
/// ("E.25", ch. 26): in full playing it is enough that bass and soprano avoid them.
pub fn voices_summary(count: usize, lang: Lang) -> String {
    if count == 0 {
        return lang
            .say(phrase!(
                "No two voices move in fifths or octaves.",
                "Nessuna coppia di voci procede per quinte o ottave.",
                "Keine zwei Stimmen gehen in Quinten oder Oktaven.",
                "Aucune paire de voix ne procède par quintes ou octaves.",
                "Ningún par de voces procede por quintas u octavas.",
            ))
            .to_owned();
    }
    lang.count(
        count,
        phrase!(
            "One pair of fifths or octaves with an inner voice. In a full handful that is no fault.",
            "Una coppia di quinte o ottave con una voce interna. In una mano piena non è un errore.",
            "Ein Paar Quinten oder Oktaven mit einer Mittelstimme. Im vollen Griff ist das kein Fehler.",
            "Une paire de quintes ou d’octaves avec une voix intérieure. Dans une main pleine, ce n’est pas une faute.",
            "Un par de quintas u octavas con una voz interior. En una mano llena no es una falta.",
        ),
        phrase!(
            "{0} pairs of fifths or octaves with an inner voice. In full handfuls that is no fault.",
            "{0} coppie di quinte o ottave con una voce interna. A mani piene non sono errori.",
            "{0} Paare Quinten oder Oktaven mit einer Mittelstimme. In vollen Griffen ist das kein Fehler.",
            "{0} paires de quintes ou d’octaves avec une voix intérieure. À pleines mains, ce ne sont pas des fautes.",
            "{0} pares de quintas u octavas con una voz interior. A manos llenas no son faltas.",
        ),
    )
}

/// What is to be said of a note set freely: that it is no tone of its chord, and which
/// figures would make it one, given as text; none may do so.
pub fn note_that_is_free(note: Pitch, figures: &str, lang: Lang) -> String {
    let name = lang.pitch(note);
    if figures.is_empty() {
        return lang.tell(
            phrase!(
                "{0} is no note of this chord, nor of any usual chord over this bass.",
                "{0} non appartiene a questo accordo, né ad altri accordi usuali su questo basso.",
                "{0} gehört nicht zu diesem Akkord und zu keinem üblichen über diesem Bass.",
                "{0} n’appartient pas à cet accord, ni à aucun accord usuel sur cette basse.",
                "{0} no es nota de este acorde ni de ningún acorde usual sobre este bajo.",
            ),
            [&name],
        );
    }
    lang.tell(
        phrase!(
            "{0} is no note of this chord. It would make: {1}.",
            "{0} non appartiene a questo accordo. Ne farebbe: {1}.",
            "{0} gehört nicht zu diesem Akkord. Daraus würde: {1}.",
            "{0} n’appartient pas à cet accord. Cela ferait : {1}.",
            "{0} no es nota de este acorde. Haría: {1}.",
        ),
        [&name, &figures],
    )
}
