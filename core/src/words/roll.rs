//! Why a note was added to a roll, in a sentence.

use super::Lang;
use crate::phrase;
use crate::roll::Why;

/// The reason as one sentence with its source.
pub fn added(why: Why, lang: Lang) -> &'static str {
    lang.say(match why {
        Why::FillsGap => phrase!(
            "An acciaccatura: it fills the gap between two notes of the chord, is struck with them and left at once (Gasparini 1708, ch. 9; from memory).",
            "Un’acciaccatura: riempie il vuoto tra due note dell’accordo, si batte con esse e si lascia subito (Gasparini 1708, cap. 9; a memoria).",
            "Eine Acciaccatura: Sie füllt die Lücke zwischen zwei Akkordtönen, wird mit ihnen angeschlagen und sogleich verlassen (Gasparini 1708, Kap. 9; aus dem Gedächtnis).",
            "Une acciaccature : elle remplit le vide entre deux notes de l’accord, se frappe avec elles et se quitte aussitôt (Gasparini 1708, chap. 9 ; de mémoire).",
            "Una acciaccatura: llena el hueco entre dos notas del acorde, se toca con ellas y se deja al instante (Gasparini 1708, cap. 9; de memoria)."
        ),
        Why::SemitoneBelow => phrase!(
            "A mordent of the thorough-bass: the semitone below a chord note, struck with it and left at once (Gasparini 1708, ch. 9; from memory).",
            "Un mordente del basso continuo: il semitono sotto una nota dell’accordo, battuto con essa e subito lasciato (Gasparini 1708, cap. 9; a memoria).",
            "Ein Mordent des Generalbasses: der Halbton unter einem Akkordton, mit ihm angeschlagen und sogleich verlassen (Gasparini 1708, Kap. 9; aus dem Gedächtnis).",
            "Un pincé de la basse continue : le demi-ton sous une note de l’accord, frappé avec elle et quitté aussitôt (Gasparini 1708, chap. 9 ; de mémoire).",
            "Un mordente del bajo continuo: el semitono bajo una nota del acorde, tocado con ella y dejado al instante (Gasparini 1708, cap. 9; de memoria)."
        ),
        Why::PassesBetween => phrase!(
            "A passing note: it goes by step from one chord note to the next (common practice).",
            "Una nota di passaggio: va di grado da una nota dell’accordo all’altra (pratica comune).",
            "Ein Durchgang: Er geht schrittweise von einem Akkordton zum nächsten (allgemeine Praxis).",
            "Une note de passage : elle va par degré d’une note de l’accord à l’autre (usage commun).",
            "Una nota de paso: va por grado de una nota del acorde a otra (práctica común)."
        ),
        Why::Walks => phrase!(
            "A passing note of the bass, struck alone on the way to the next chord (common practice).",
            "Una nota di passaggio del basso, battuta da sola andando all’accordo seguente (pratica comune).",
            "Ein Durchgang des Basses, allein angeschlagen auf dem Weg zum nächsten Akkord (allgemeine Praxis).",
            "Une note de passage de la basse, frappée seule en allant à l’accord suivant (usage commun).",
            "Una nota de paso del bajo, tocada sola de camino al acorde siguiente (práctica común)."
        ),
        Why::TurnsBeside => phrase!(
            "A neighbour note: it leaves a chord note by step and returns (common practice).",
            "Una nota di volta: lascia di grado una nota dell’accordo e vi torna (pratica comune).",
            "Eine Nebennote: Sie verlässt einen Akkordton schrittweise und kehrt zurück (allgemeine Praxis).",
            "Une broderie : elle quitte par degré une note de l’accord et y revient (usage commun).",
            "Una bordadura: deja por grado una nota del acorde y vuelve a ella (práctica común)."
        ),
        Why::Mordent => phrase!(
            "A mordent on the close (common practice).",
            "Un mordente sulla chiusa (pratica comune).",
            "Ein Mordent auf dem Schluss (allgemeine Praxis).",
            "Un pincé sur la conclusion (usage commun).",
            "Un mordente en el cierre (práctica común)."
        ),
        Why::Trill => phrase!(
            "A trill on the dominant before the close, from the note above (C.P.E. Bach 1753, ch. 2; from memory).",
            "Un trillo sulla dominante prima della chiusa, dalla nota superiore (C.P.E. Bach 1753, cap. 2; a memoria).",
            "Ein Triller auf der Dominante vor dem Schluss, von der oberen Note (C.P.E. Bach 1753, Kap. 2; aus dem Gedächtnis).",
            "Un tremblement sur la dominante avant la conclusion, par la note supérieure (C.P.E. Bach 1753, chap. 2 ; de mémoire).",
            "Un trino en la dominante antes del cierre, desde la nota superior (C.P.E. Bach 1753, cap. 2; de memoria)."
        ),
        Why::RunsOn => phrase!(
            "A run: it carries the hand to the next chord through the scale of the moment (practice of the unmeasured prelude; from memory).",
            "Una tirata: porta la mano all’accordo seguente per la scala del momento (pratica del preludio non misurato; a memoria).",
            "Ein Lauf: Er trägt die Hand durch die Leiter des Augenblicks zum nächsten Akkord (Praxis des unmensurierten Präludiums; aus dem Gedächtnis).",
            "Une tirade : elle porte la main à l’accord suivant par la gamme du moment (pratique du prélude non mesuré ; de mémoire).",
            "Una carrerilla: lleva la mano al acorde siguiente por la escala del momento (práctica del preludio sin medida; de memoria)."
        ),
        Why::Suspends => phrase!(
            "A suspension: the top voice keeps the note it had, a dissonance now, and falls by step into the chord (Fux 1725; from memory).",
            "Un ritardo: la voce superiore tiene la nota che aveva, ora dissonante, e scende di grado nell’accordo (Fux 1725; a memoria).",
            "Ein Vorhalt: Die Oberstimme behält ihren Ton, nun eine Dissonanz, und fällt schrittweise in den Akkord (Fux 1725; aus dem Gedächtnis).",
            "Un retard : la voix supérieure garde sa note, devenue dissonance, et descend par degré dans l’accord (Fux 1725 ; de mémoire).",
            "Un retardo: la voz superior mantiene su nota, ahora disonante, y baja por grado al acorde (Fux 1725; de memoria)."
        ),
        Why::Detours => phrase!(
            "A detour: the stroke goes on through the same chord into another inversion, and comes back (common practice).",
            "Una digressione: l’arpeggio prosegue nello stesso accordo fino a un altro rivolto, e ritorna (pratica comune).",
            "Ein Umweg: Der Zug geht durch denselben Akkord in eine andere Umkehrung weiter und kehrt zurück (allgemeine Praxis).",
            "Un détour : le trait continue dans le même accord jusqu’à un autre renversement, et revient (usage commun).",
            "Un rodeo: el trazo sigue por el mismo acorde hasta otra inversión, y vuelve (práctica común)."
        ),
        Why::Anticipates => phrase!(
            "An anticipation: the next chord’s top note sounds early (common practice).",
            "Un’anticipazione: la nota più alta dell’accordo seguente suona prima (pratica comune).",
            "Eine Vorausnahme: Der oberste Ton des nächsten Akkords klingt früher (allgemeine Praxis).",
            "Une anticipation : la note supérieure de l’accord suivant sonne plus tôt (usage commun).",
            "Una anticipación: la nota superior del acorde siguiente suena antes (práctica común)."
        ),
    })
}
