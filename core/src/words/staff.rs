//! What the staff says of its notes, for screen readers and pointers.

use super::Lang;
use crate::frame::Motion;
use crate::hands::Hand;
use crate::phrase;
use crate::pitch::Pitch;

/// What a note on the staff is to its chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StaffPart {
    /// The bass.
    Bass,
    /// The soprano.
    Soprano,
    /// A note between the outer voices.
    Inner,
}

/// A note's name, part and hand: "C4, bass, left hand".
pub fn staff_note(pitch: Pitch, part: StaffPart, hand: Hand, lang: Lang) -> String {
    let part = lang.say(match part {
        StaffPart::Bass => phrase!("bass", "basso", "Bass", "basse", "bajo"),
        StaffPart::Soprano => phrase!("soprano", "soprano", "Sopran", "soprano", "soprano"),
        StaffPart::Inner => {
            phrase!(
                "inner note",
                "nota interna",
                "Mittelstimme",
                "note intérieure",
                "nota interior"
            )
        }
    });
    let hand = lang.say(match hand {
        Hand::Left => {
            phrase!("left hand", "mano sinistra", "linke Hand", "main gauche", "mano izquierda")
        }
        Hand::Right => {
            phrase!("right hand", "mano destra", "rechte Hand", "main droite", "mano derecha")
        }
    });
    format!("{}, {part}, {hand}", lang.pitch(pitch))
}

/// The motion of the outer voices: "contrary motion", "parallel tenths". `number`
/// is the interval reached, in the range [1, 7].
pub fn motion_name(motion: Motion, number: u8, lang: Lang) -> &'static str {
    lang.say(match (motion, number) {
        (Motion::Contrary, _) => phrase!(
            "contrary motion",
            "moto contrario",
            "Gegenbewegung",
            "mouvement contraire",
            "movimiento contrario"
        ),
        (Motion::Oblique, _) => phrase!(
            "oblique motion",
            "moto obliquo",
            "Seitenbewegung",
            "mouvement oblique",
            "movimiento oblicuo"
        ),
        (Motion::Similar, _) => phrase!(
            "similar motion",
            "moto retto",
            "gerade Bewegung",
            "mouvement direct",
            "movimiento directo"
        ),
        (Motion::Still, _) => phrase!(
            "neither voice moves",
            "nessuna voce si muove",
            "keine Stimme bewegt sich",
            "aucune voix ne bouge",
            "ninguna voz se mueve"
        ),
        (Motion::Parallel, 3) => phrase!(
            "parallel tenths",
            "decime parallele",
            "Dezimenparallelen",
            "dixièmes parallèles",
            "décimas paralelas"
        ),
        (Motion::Parallel, 6) => phrase!(
            "parallel sixths",
            "seste parallele",
            "Sextenparallelen",
            "sixtes parallèles",
            "sextas paralelas"
        ),
        (Motion::Parallel, 5) => phrase!(
            "parallel fifths",
            "quinte parallele",
            "Quintparallelen",
            "quintes parallèles",
            "quintas paralelas"
        ),
        (Motion::Parallel, 1) => phrase!(
            "parallel octaves",
            "ottave parallele",
            "Oktavparallelen",
            "octaves parallèles",
            "octavas paralelas"
        ),
        (Motion::Parallel, _) => phrase!(
            "parallel motion",
            "moto parallelo",
            "Parallelbewegung",
            "mouvement parallèle",
            "movimiento paralelo"
        ),
    })
}
