//! The trade's terms, each explained in a sentence or two, with the source of the
//! definition where one is followed; the rest is common practice.

use super::{Lang, Phrase};
use crate::phrase;

/// A term of the trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    /// The word it is known by in the page and in links to it.
    pub key: &'static str,
    /// What words it is known by in a text begin with, parted by strokes.
    stems: Phrase,
    name: Phrase,
    meaning: Phrase,
    /// Who explains it so, if the sentence follows a book; cited from memory.
    pub source: Option<&'static str>,
}

impl Term {
    /// What the term is called.
    pub fn name(&self, lang: Lang) -> &'static str {
        lang.say(self.name)
    }

    /// What it means.
    pub fn meaning(&self, lang: Lang) -> &'static str {
        lang.say(self.meaning)
    }
}

/// The term of this key.
pub fn term(key: &str) -> Option<&'static Term> {
    TERMS.iter().find(|term| term.key == key)
}

/// A piece of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece<'a> {
    /// Words that are explained nowhere.
    Plain(&'a str),
    /// Words that name a term.
    Named(&'a str, &'static Term),
}

/// A text in pieces, each term marked where it is named first.
pub fn marked(text: &str, lang: Lang) -> Vec<Piece<'_>> {
    let mut pieces = Vec::new();
    let mut told: Vec<&str> = Vec::new();
    let (mut plain, mut at) = (0, 0);
    while let Some(first) = text.get(at..).and_then(|rest| rest.chars().next()) {
        let found = begins_word(text, at).then(|| named(text, at, lang, &told)).flatten();
        if let Some((end, term)) = found {
            pieces.extend(text.get(plain..at).filter(|it| !it.is_empty()).map(Piece::Plain));
            pieces.extend(text.get(at..end).map(|word| Piece::Named(word, term)));
            told.push(term.key);
            (plain, at) = (end, end);
        } else {
            at += first.len_utf8();
        }
    }
    pieces.extend(text.get(plain..).filter(|it| !it.is_empty()).map(Piece::Plain));
    pieces
}

fn begins_word(text: &str, at: usize) -> bool {
    !text.get(..at).unwrap_or_default().ends_with(char::is_alphanumeric)
}

/// The longest name of a term not yet told that stands here, to the end of its word.
fn named(text: &str, at: usize, lang: Lang, told: &[&str]) -> Option<(usize, &'static Term)> {
    let rest = text.get(at..)?;
    let fresh = TERMS.iter().filter(|term| !told.contains(&term.key));
    let stems = fresh.flat_map(|term| lang.say(term.stems).split('|').map(move |it| (it, term)));
    let here = stems.filter(|(stem, _)| begins_with(rest, stem));
    let (stem, term) = here.max_by_key(|(stem, _)| stem.len())?;
    let length: usize = rest.chars().take(stem.chars().count()).map(char::len_utf8).sum();
    let tail = rest.get(length..)?;
    let ending = tail.find(|c: char| !c.is_alphabetic()).unwrap_or(tail.len());
    // Far more letters than an ending has make another word.
    (tail.get(..ending)?.chars().count() <= 4).then_some((at + length + ending, term))
}

fn begins_with(text: &str, stem: &str) -> bool {
    let mut letters = text.chars().flat_map(char::to_lowercase);
    stem.chars().all(|c| letters.next() == Some(c))
}

/// All terms, in the order of the English names given to them here.
pub const TERMS: &[Term] = &[
    Term {
        key: "thorough-bass",
        stems: phrase!(
            "thorough-bass|thoroughbass",
            "basso continuo",
            "generalbass",
            "basse continue",
            "bajo continuo"
        ),
        name: phrase!(
            "thorough-bass",
            "basso continuo",
            "Generalbass",
            "basse continue",
            "bajo continuo"
        ),
        meaning: phrase!(
            "A bass line from which a keyboard player makes the harmony, helped by figures.",
            "Una linea di basso da cui chi suona la tastiera ricava l’armonia, con l’aiuto delle cifre.",
            "Eine Basslinie, aus der am Tasteninstrument die Harmonie gebildet wird, mit Hilfe der Ziffern.",
            "Une ligne de basse dont le claviériste tire l’harmonie, aidé par des chiffres.",
            "Una línea de bajo de la que quien toca el teclado saca la armonía, con ayuda de las cifras."
        ),
        source: None,
    },
    Term {
        key: "figures",
        stems: phrase!(
            "figures|figured",
            "cifre|cifra|cifrato",
            "ziffern|ziffer|beziffer",
            "chiffre|chiffré",
            "cifra|cifrado"
        ),
        name: phrase!("figures", "cifre", "Bezifferung", "chiffres", "cifras"),
        meaning: phrase!(
            "Numbers under the bass that name intervals above it: 6 is a sixth, 7 a seventh. No figure means third and fifth.",
            "Numeri sotto il basso che indicano intervalli sopra di esso: 6 è una sesta, 7 una settima. Nessuna cifra vuol dire terza e quinta.",
            "Zahlen unter dem Bass, die Intervalle über ihm nennen: 6 ist eine Sexte, 7 eine Septime. Keine Ziffer bedeutet Terz und Quinte.",
            "Nombres sous la basse qui désignent des intervalles au-dessus d’elle : 6 est une sixte, 7 une septième. Sans chiffre : tierce et quinte.",
            "Números bajo el bajo que nombran intervalos sobre él: 6 es una sexta, 7 una séptima. Sin cifra: tercera y quinta."
        ),
        source: Some("C.P.E. Bach, Versuch II (1762)."),
    },
    Term {
        key: "degree",
        stems: phrase!("degree", "grado", "stufe", "degré", "grado"),
        name: phrase!("degree", "grado", "Stufe", "degré", "grado"),
        meaning: phrase!(
            "The place of a note in the scale, counted from the tonic as the 1st.",
            "Il posto di una nota nella scala, contato dalla tonica come 1°.",
            "Der Platz eines Tons in der Tonleiter, von der Tonika als 1. gezählt.",
            "La place d’une note dans la gamme, comptée depuis la tonique, qui est le 1er.",
            "El lugar de una nota en la escala, contado desde la tónica, que es el 1.º."
        ),
        source: None,
    },
    Term {
        key: "octave-rule",
        stems: phrase!(
            "octave rule",
            "regola dell’ottava",
            "oktavregel",
            "règle de l’octave",
            "regla de la octava"
        ),
        name: phrase!(
            "octave rule",
            "regola dell’ottava",
            "Oktavregel",
            "règle de l’octave",
            "regla de la octava"
        ),
        meaning: phrase!(
            "A rule for an unfigured bass that goes by step: each degree has its chord, one rising and one falling.",
            "Una regola per il basso senza cifre che va di grado: ogni grado ha il suo accordo, salendo e scendendo.",
            "Eine Regel für den unbezifferten Bass in Schritten: Jede Stufe hat ihren Akkord, steigend und fallend.",
            "Une règle pour la basse non chiffrée allant par degrés : chaque degré a son accord, en montant et en descendant.",
            "Una regla para el bajo sin cifras que va por grados: cada grado tiene su acorde, subiendo y bajando."
        ),
        source: Some("Campion, Traité (1716); Fenaroli, Regole musicali (1775)."),
    },
    Term {
        key: "outer-voices",
        stems: phrase!(
            "outer voices",
            "voci estreme",
            "außenstimmen",
            "voix extrêmes",
            "voces extremas"
        ),
        name: phrase!(
            "outer voices",
            "voci estreme",
            "Außenstimmen",
            "voix extrêmes",
            "voces extremas"
        ),
        meaning: phrase!(
            "The highest and the lowest voice, soprano and bass. They are heard most, so their rules are strictest.",
            "La voce più alta e la più bassa, soprano e basso. Si sentono di più, perciò le loro regole sono le più severe.",
            "Die höchste und die tiefste Stimme, Sopran und Bass. Man hört sie am meisten, darum sind ihre Regeln am strengsten.",
            "La voix la plus haute et la plus basse, soprano et basse. On les entend le plus : leurs règles sont les plus strictes.",
            "La voz más alta y la más baja, soprano y bajo. Son las que más se oyen, por eso sus reglas son las más estrictas."
        ),
        source: None,
    },
    Term {
        key: "motion",
        stems: phrase!(
            "contrary motion|oblique motion|similar motion|parallel motion",
            "moto contrario|moto obliquo|moto retto|moto parallelo",
            "gegenbewegung|seitenbewegung|gerade bewegung|parallelbewegung",
            "mouvement contraire|mouvement oblique|mouvement direct|mouvement parallèle",
            "movimiento contrario|movimiento oblicuo|movimiento directo|movimiento paralelo"
        ),
        name: phrase!("motion", "moto", "Bewegung", "mouvement", "movimiento"),
        meaning: phrase!(
            "How two voices go: contrary (against each other), oblique (one stays), similar (the same way), parallel (the same way at one interval).",
            "Come vanno due voci: contrario (l’una contro l’altra), obliquo (una resta), retto (nello stesso senso), parallelo (nello stesso senso allo stesso intervallo).",
            "Wie zwei Stimmen gehen: Gegenbewegung (gegeneinander), Seitenbewegung (eine bleibt), gerade Bewegung (in gleicher Richtung), Parallelbewegung (ebenso, im gleichen Intervall).",
            "Comment vont deux voix : contraire (l’une contre l’autre), oblique (une reste), direct (dans le même sens), parallèle (de même, au même intervalle).",
            "Cómo van dos voces: contrario (una contra otra), oblicuo (una queda), directo (en el mismo sentido), paralelo (igual, al mismo intervalo)."
        ),
        source: Some("Fux, Gradus ad Parnassum (1725)."),
    },
    Term {
        key: "parallels",
        stems: phrase!(
            "consecutive fifths|consecutive octaves|consecutives",
            "quinte parallele|ottave parallele|parallele",
            "quintparallelen|oktavparallelen|parallelen|antiparallelen",
            "quintes parallèles|octaves parallèles|parallèles",
            "quintas paralelas|octavas paralelas|paralelas"
        ),
        name: phrase!(
            "consecutive fifths and octaves",
            "quinte e ottave parallele",
            "Quint- und Oktavparallelen",
            "quintes et octaves parallèles",
            "quintas y octavas paralelas"
        ),
        meaning: phrase!(
            "Two voices that move from one perfect fifth or octave straight to another lose their independence.",
            "Due voci che vanno da una quinta giusta o ottava direttamente a un’altra perdono la loro indipendenza.",
            "Zwei Stimmen, die von einer reinen Quinte oder Oktave geradewegs in eine andere gehen, verlieren ihre Selbständigkeit.",
            "Deux voix qui vont d’une quinte juste ou d’une octave droit à une autre perdent leur indépendance.",
            "Dos voces que van de una quinta justa u octava directamente a otra pierden su independencia."
        ),
        source: Some("Fux, Gradus ad Parnassum (1725)."),
    },
    Term {
        key: "hidden",
        stems: phrase!(
            "hidden fifths|hidden octaves",
            "quinte nascoste|ottave nascoste",
            "verdeckte quinten|verdeckte oktaven",
            "quintes cachées|octaves cachées",
            "quintas ocultas|octavas ocultas"
        ),
        name: phrase!(
            "hidden fifths and octaves",
            "quinte e ottave nascoste",
            "verdeckte Quinten und Oktaven",
            "quintes et octaves cachées",
            "quintas y octavas ocultas"
        ),
        meaning: phrase!(
            "A fifth or octave that both voices reach in the same direction.",
            "Una quinta o un’ottava a cui le due voci giungono nello stesso senso.",
            "Eine Quinte oder Oktave, in die beide Stimmen in gleicher Richtung gehen.",
            "Une quinte ou une octave que les deux voix atteignent dans le même sens.",
            "Una quinta u octava a la que ambas voces llegan en el mismo sentido."
        ),
        source: Some("Fux, Gradus ad Parnassum (1725)."),
    },
    Term {
        key: "position",
        stems: phrase!(
            "first position|second position|third position",
            "prima posizione|seconda posizione|terza posizione",
            "erster lage|zweiter lage|dritter lage",
            "première position|deuxième position|troisième position",
            "primera posición|segunda posición|tercera posición"
        ),
        name: phrase!("position", "posizione", "Lage", "position", "posición"),
        meaning: phrase!(
            "What lies on top of the first chord: the octave (first position), the third (second) or the fifth (third).",
            "Ciò che sta in alto nel primo accordo: l’ottava (prima posizione), la terza (seconda) o la quinta (terza).",
            "Was im ersten Akkord oben liegt: die Oktave (erste Lage), die Terz (zweite) oder die Quinte (dritte).",
            "Ce qui est en haut du premier accord : l’octave (première position), la tierce (deuxième) ou la quinte (troisième).",
            "Lo que queda arriba en el primer acorde: la octava (primera posición), la tercera (segunda) o la quinta (tercera)."
        ),
        source: None,
    },
    Term {
        key: "leading-note",
        stems: phrase!("leading note", "sensibile", "leitton", "sensible", "sensible"),
        name: phrase!("leading note", "sensibile", "Leitton", "note sensible", "sensible"),
        meaning: phrase!(
            "The note a semitone under the tonic; it wants to rise to it.",
            "La nota un semitono sotto la tonica; vuole salirvi.",
            "Der Ton einen Halbton unter der Tonika; er will zu ihr steigen.",
            "La note un demi-ton sous la tonique ; elle veut y monter.",
            "La nota un semitono bajo la tónica; quiere subir a ella."
        ),
        source: None,
    },
    Term {
        key: "dissonance",
        stems: phrase!("dissonan", "dissonan", "dissonan", "dissonan", "disonan"),
        name: phrase!("dissonance", "dissonanza", "Dissonanz", "dissonance", "disonancia"),
        meaning: phrase!(
            "An interval that is not at rest, such as a second or a seventh; it is prepared and resolves by a step, usually down.",
            "Un intervallo che non riposa, come seconda o settima; si prepara e risolve di grado, di solito scendendo.",
            "Ein Intervall, das nicht ruht, wie Sekunde oder Septime; es wird vorbereitet und löst sich schrittweise auf, meist abwärts.",
            "Un intervalle qui n’est pas en repos, comme la seconde ou la septième ; il se prépare et se résout par degré, le plus souvent en descendant.",
            "Un intervalo que no reposa, como la segunda o la séptima; se prepara y resuelve por grado, casi siempre bajando."
        ),
        source: None,
    },
    Term {
        key: "suspension",
        stems: phrase!(
            "suspension|suspended",
            "ritardo|ritardi|ritardat",
            "vorhalt|vorgehalten",
            "retard",
            "retardo|retarda"
        ),
        name: phrase!("suspension", "ritardo", "Vorhalt", "retard", "retardo"),
        meaning: phrase!(
            "A note held over into a chord where it is dissonant, which then falls by a step.",
            "Una nota tenuta in un accordo dove è dissonante, che poi scende di grado.",
            "Ein Ton, der in einen Akkord hinein liegen bleibt, dort dissoniert und dann einen Schritt fällt.",
            "Une note tenue dans un accord où elle est dissonante, et qui descend ensuite d’un degré.",
            "Una nota mantenida en un acorde donde es disonante, que después baja un grado."
        ),
        source: Some("Fux, Gradus ad Parnassum (1725); Fenaroli, Regole musicali (1775)."),
    },
    Term {
        key: "cadence",
        stems: phrase!(
            "simple cadence|compound cadence|double cadence",
            "cadenza semplice|cadenza composta|cadenza doppia",
            "einfache kadenz|zusammengesetzte kadenz|doppelten kadenz|einfachen kadenz|zusammengesetzten kadenz",
            "cadence simple|cadence composée|cadence double",
            "cadencia simple|cadencia compuesta|cadencia doble"
        ),
        name: phrase!("cadence", "cadenza", "Kadenz", "cadence", "cadencia"),
        meaning: phrase!(
            "The close of a phrase, from the 5th degree to the 1st: simple (one chord on the 5th), compound (two, the first suspended) or double (four).",
            "La chiusa di una frase, dal 5° grado al 1°: semplice (un accordo sul 5°), composta (due, il primo ritardato) o doppia (quattro).",
            "Der Schluss einer Phrase, von der 5. Stufe zur 1.: einfach (ein Akkord auf der 5.), zusammengesetzt (zwei, der erste vorgehalten) oder doppelt (vier).",
            "La conclusion d’une phrase, du 5e degré au 1er : simple (un accord sur le 5e), composée (deux, le premier retardé) ou double (quatre).",
            "El cierre de una frase, del 5.º grado al 1.º: simple (un acorde sobre el 5.º), compuesta (dos, el primero retardado) o doble (cuatro)."
        ),
        source: Some("Fenaroli, Regole musicali (1775)."),
    },
    Term {
        key: "half-cadence",
        stems: phrase!(
            "half cadence|phrygian cadence",
            "cadenza sospesa|cadenza frigia",
            "halbschluss|phrygische kadenz",
            "demi-cadence|cadence phrygienne",
            "semicadencia|cadencia frigia"
        ),
        name: phrase!(
            "half cadence",
            "cadenza sospesa",
            "Halbschluss",
            "demi-cadence",
            "semicadencia"
        ),
        meaning: phrase!(
            "A phrase that stops on the 5th degree. It is Phrygian when the bass comes down to it by a semitone in minor.",
            "Una frase che si ferma sul 5° grado. È frigia quando in minore il basso vi scende di semitono.",
            "Eine Phrase, die auf der 5. Stufe innehält. Phrygisch heißt sie, wenn der Bass in Moll mit einem Halbton zu ihr herabsteigt.",
            "Une phrase qui s’arrête sur le 5e degré. Elle est phrygienne quand, en mineur, la basse y descend d’un demi-ton.",
            "Una frase que se detiene en el 5.º grado. Es frigia cuando, en menor, el bajo baja a él un semitono."
        ),
        source: None,
    },
    Term {
        key: "deceptive",
        stems: phrase!(
            "deceptive cadence",
            "cadenza d’inganno",
            "trugschluss",
            "cadence rompue",
            "cadencia rota"
        ),
        name: phrase!(
            "deceptive cadence",
            "cadenza d’inganno",
            "Trugschluss",
            "cadence rompue",
            "cadencia rota"
        ),
        meaning: phrase!(
            "A cadence whose bass rises from the 5th degree to the 6th instead of going home.",
            "Una cadenza il cui basso sale dal 5° grado al 6° invece di tornare alla tonica.",
            "Eine Kadenz, deren Bass von der 5. Stufe zur 6. steigt, statt heimzukehren.",
            "Une cadence dont la basse monte du 5e degré au 6e au lieu de rentrer à la tonique.",
            "Una cadencia cuyo bajo sube del 5.º grado al 6.º en vez de volver a la tónica."
        ),
        source: None,
    },
    Term {
        key: "sequence",
        stems: phrase!("sequence", "progressione", "sequenz", "marche", "progresión"),
        name: phrase!(
            "sequence, bass motion",
            "progressione, moto del basso",
            "Sequenz, Bassgang",
            "marche de basse",
            "progresión del bajo"
        ),
        meaning: phrase!(
            "A short pattern of the bass repeated step after step, each round with the same chords.",
            "Un breve modello del basso ripetuto di grado in grado, ogni giro con gli stessi accordi.",
            "Ein kurzes Bassmodell, das Stufe um Stufe wiederholt wird, jede Runde mit denselben Akkorden.",
            "Un court modèle de basse répété de degré en degré, chaque tour avec les mêmes accords.",
            "Un breve modelo del bajo repetido de grado en grado, cada vuelta con los mismos acordes."
        ),
        source: None,
    },
    Term {
        key: "pedal",
        stems: phrase!("pedal", "pedale", "orgelpunkt", "pédale", "pedal"),
        name: phrase!("pedal", "pedale", "Orgelpunkt", "pédale", "pedal"),
        meaning: phrase!(
            "A bass note that stays while the chords above it change.",
            "Una nota del basso che resta mentre gli accordi sopra cambiano.",
            "Ein Basston, der liegen bleibt, während die Akkorde darüber wechseln.",
            "Une note de basse qui reste pendant que les accords changent au-dessus.",
            "Una nota del bajo que queda mientras cambian los acordes de encima."
        ),
        source: None,
    },
    Term {
        key: "handful",
        stems: phrase!("handful", "prese", "griff", "poignée", "postura"),
        name: phrase!("handful", "presa", "Griff", "poignée", "postura"),
        meaning: phrase!(
            "What one hand holds of a chord. Full playing takes as many notes as the two hands can hold.",
            "Ciò che una mano tiene di un accordo. Il suonare pieno prende quante note le due mani possono tenere.",
            "Was eine Hand von einem Akkord hält. Vollgriffiges Spiel nimmt so viele Töne, wie beide Hände halten können.",
            "Ce qu’une main tient d’un accord. Le jeu plein prend autant de notes que les deux mains en peuvent tenir.",
            "Lo que una mano sostiene de un acorde. Tocar lleno toma tantas notas como las dos manos puedan sostener."
        ),
        source: None,
    },
    Term {
        key: "roll",
        stems: phrase!(
            "roll|rolls|rolled",
            "arpeggi",
            "brechung|brechen|gebrochen",
            "arpèg|arpég",
            "arpegi"
        ),
        name: phrase!("roll", "arpeggio", "Brechung", "arpègement", "arpegio"),
        meaning: phrase!(
            "A chord struck note after note instead of at once, up, down or to and fro.",
            "Un accordo suonato nota dopo nota invece che insieme, in su, in giù o avanti e indietro.",
            "Ein Akkord, der Ton nach Ton statt zugleich angeschlagen wird, auf, ab oder hin und her.",
            "Un accord frappé note après note au lieu d’ensemble, en montant, en descendant ou en allant et venant.",
            "Un acorde tocado nota tras nota en vez de a la vez, hacia arriba, hacia abajo o de ida y vuelta."
        ),
        source: None,
    },
    Term {
        key: "stroke",
        stems: phrase!("stroke", "tratto|tratti", "zug|züge", "trait|traits", "trazo"),
        name: phrase!("stroke", "tratto", "Zug", "trait", "trazo"),
        meaning: phrase!(
            "One sweep of a roll up or down, and the order in which it takes the notes.",
            "Un gesto dell’arpeggio in su o in giù, e l’ordine in cui prende le note.",
            "Ein Schwung der Brechung auf oder ab und die Reihenfolge, in der er die Töne nimmt.",
            "Un geste de l’arpègement vers le haut ou le bas, et l’ordre où il prend les notes.",
            "Un gesto del arpegio hacia arriba o hacia abajo, y el orden en que toma las notas."
        ),
        source: None,
    },
    Term {
        key: "acciaccatura",
        stems: phrase!(
            "acciaccatura",
            "acciaccatur",
            "acciaccatur",
            "acciaccature",
            "acciaccatura"
        ),
        name: phrase!(
            "acciaccatura",
            "acciaccatura",
            "Acciaccatura",
            "acciaccature",
            "acciaccatura"
        ),
        meaning: phrase!(
            "A note foreign to the chord, struck with it and let go at once.",
            "Una nota estranea all’accordo, battuta con esso e lasciata subito.",
            "Ein akkordfremder Ton, mit dem Akkord angeschlagen und sogleich losgelassen.",
            "Une note étrangère à l’accord, frappée avec lui et lâchée aussitôt.",
            "Una nota ajena al acorde, tocada con él y soltada al instante."
        ),
        source: Some("Gasparini, L’armonico pratico al cimbalo (1708), ch. 9."),
    },
    Term {
        key: "passing-note",
        stems: phrase!(
            "passing note",
            "nota di passaggio|note di passaggio",
            "durchgang|durchgänge",
            "note de passage|notes de passage",
            "nota de paso|notas de paso"
        ),
        name: phrase!(
            "passing note",
            "nota di passaggio",
            "Durchgang",
            "note de passage",
            "nota de paso"
        ),
        meaning: phrase!(
            "A note between chord notes, reached and left by step in one direction.",
            "Una nota tra le note dell’accordo, presa e lasciata di grado in un solo senso.",
            "Ein Ton zwischen Akkordtönen, schrittweise in einer Richtung erreicht und verlassen.",
            "Une note entre les notes de l’accord, prise et quittée par degré dans un même sens.",
            "Una nota entre las del acorde, tomada y dejada por grado en un mismo sentido."
        ),
        source: None,
    },
    Term {
        key: "neighbour-note",
        stems: phrase!(
            "neighbour note",
            "nota di volta|note di volta",
            "nebennote",
            "broderie",
            "bordadura"
        ),
        name: phrase!("neighbour note", "nota di volta", "Nebennote", "broderie", "bordadura"),
        meaning: phrase!(
            "A step away from a chord note and back to it.",
            "Un grado via da una nota dell’accordo e ritorno.",
            "Ein Schritt von einem Akkordton weg und zurück.",
            "Un degré hors d’une note de l’accord et retour.",
            "Un grado fuera de una nota del acorde y vuelta."
        ),
        source: None,
    },
    Term {
        key: "mordent",
        stems: phrase!("mordent", "mordent", "mordent", "pincé", "mordente"),
        name: phrase!("mordent", "mordente", "Mordent", "pincé", "mordente"),
        meaning: phrase!(
            "A quick touch of the note below and back.",
            "Un rapido tocco della nota inferiore e ritorno.",
            "Ein rasches Berühren des unteren Nachbartons und zurück.",
            "Un rapide coup de la note inférieure et retour.",
            "Un toque rápido de la nota inferior y vuelta."
        ),
        source: Some("C.P.E. Bach, Versuch I (1753)."),
    },
    Term {
        key: "run",
        stems: phrase!("runs|a run", "tirata|tirate", "lauf|läufe", "tirade", "carrerilla"),
        name: phrase!("run", "tirata", "Lauf", "tirade", "carrerilla"),
        meaning: phrase!(
            "Quick notes of the scale that carry the hand from one chord to the next.",
            "Note rapide della scala che portano la mano da un accordo all’altro.",
            "Rasche Töne der Leiter, die die Hand von einem Akkord zum nächsten tragen.",
            "Notes rapides de la gamme qui portent la main d’un accord à l’autre.",
            "Notas rápidas de la escala que llevan la mano de un acorde a otro."
        ),
        source: None,
    },
    Term {
        key: "unmeasured",
        stems: phrase!(
            "unmeasured prelude",
            "preludio non misurato",
            "unmensuriert",
            "prélude non mesuré",
            "preludio sin medida"
        ),
        name: phrase!(
            "unmeasured prelude",
            "preludio non misurato",
            "unmensuriertes Präludium",
            "prélude non mesuré",
            "preludio sin medida"
        ),
        meaning: phrase!(
            "A prelude in free time, written in white notes without bars; the player finds the rhythm.",
            "Un preludio in tempo libero, scritto in note bianche senza battute; il ritmo lo trova chi suona.",
            "Ein Präludium in freiem Zeitmaß, in weißen Noten ohne Takte geschrieben; den Rhythmus findet, wer spielt.",
            "Un prélude en temps libre, écrit en notes blanches sans mesures ; le joueur en trouve le rythme.",
            "Un preludio en tiempo libre, escrito en notas blancas sin compases; el ritmo lo halla quien toca."
        ),
        source: None,
    },
    Term {
        key: "temperament",
        stems: phrase!(
            "temperament|tuning",
            "temperamento|accordatura",
            "temperatur|stimmung",
            "tempérament",
            "temperamento|afinación"
        ),
        name: phrase!("temperament", "temperamento", "Temperatur", "tempérament", "temperamento"),
        meaning: phrase!(
            "How the twelve keys share out the small differences between pure fifths and thirds. Meantone has pure or nearly pure thirds and some keys that howl.",
            "Come i dodici tasti si dividono le piccole differenze tra quinte e terze pure. Il mesotonico ha terze pure o quasi e alcuni toni che ululano.",
            "Wie sich die kleinen Unterschiede zwischen reinen Quinten und Terzen auf die zwölf Tasten verteilen. Mitteltönig hat reine oder fast reine Terzen und einige heulende Tonarten.",
            "Comment les douze touches se partagent les petits écarts entre quintes et tierces pures. Le mésotonique a des tierces pures ou presque, et quelques tons qui hurlent.",
            "Cómo las doce teclas se reparten las pequeñas diferencias entre quintas y terceras puras. El mesotónico tiene terceras puras o casi y algunos tonos que aúllan."
        ),
        source: None,
    },
    Term {
        key: "wolf",
        stems: phrase!("howls", "ulula", "heult", "hurle", "aúlla"),
        name: phrase!("wolf", "lupo", "Wolf", "loup", "lobo"),
        meaning: phrase!(
            "An interval that a temperament leaves so far out of tune that it howls.",
            "Un intervallo che un temperamento lascia così stonato che ulula.",
            "Ein Intervall, das eine Temperatur so unrein lässt, dass es heult.",
            "Un intervalle qu’un tempérament laisse si faux qu’il hurle.",
            "Un intervalo que un temperamento deja tan desafinado que aúlla."
        ),
        source: None,
    },
    Term {
        key: "short-octave",
        stems: phrase!(
            "short octave",
            "ottava corta",
            "kurze oktave",
            "octave courte",
            "octava corta"
        ),
        name: phrase!(
            "short octave",
            "ottava corta",
            "kurze Oktave",
            "octave courte",
            "octava corta"
        ),
        meaning: phrase!(
            "A keyboard whose lowest keys sound deeper notes than they show, since the low sharps were seldom needed.",
            "Una tastiera i cui tasti più gravi danno note più basse di quanto mostrano, perché i diesis gravi servivano di rado.",
            "Eine Tastatur, deren tiefste Tasten tiefere Töne geben, als sie zeigen, weil man die tiefen Halbtöne selten brauchte.",
            "Un clavier dont les touches les plus graves donnent des notes plus basses qu’elles ne montrent, les dièses graves servant peu.",
            "Un teclado cuyas teclas más graves dan notas más bajas de lo que muestran, porque los sostenidos graves se usaban poco."
        ),
        source: None,
    },
    Term {
        key: "cross-relation",
        stems: phrase!(
            "cross relation",
            "falsa relazione",
            "querstand",
            "fausse relation",
            "falsa relación"
        ),
        name: phrase!(
            "cross relation",
            "falsa relazione",
            "Querstand",
            "fausse relation",
            "falsa relación"
        ),
        meaning: phrase!(
            "A note in one voice followed by its chromatic alteration in another.",
            "Una nota in una voce seguita dalla sua alterazione cromatica in un’altra.",
            "Ein Ton in einer Stimme, dem seine chromatische Veränderung in einer anderen folgt.",
            "Une note dans une voix suivie de son altération chromatique dans une autre.",
            "Una nota en una voz seguida de su alteración cromática en otra."
        ),
        source: None,
    },
    Term {
        key: "fault",
        stems: phrase!("caution", "avvertenz", "hinweis", "avertissement", "advertencia"),
        name: phrase!(
            "fault, caution",
            "errore, avvertenza",
            "Fehler, Hinweis",
            "faute, avertissement",
            "falta, advertencia"
        ),
        meaning: phrase!(
            "A fault breaks a rule; a caution is worth a second look and may be meant so. How strictly each rule counts can be set.",
            "Un errore infrange una regola; un’avvertenza merita un secondo sguardo e può essere voluta. La severità di ogni regola si può scegliere.",
            "Ein Fehler bricht eine Regel; ein Hinweis verdient einen zweiten Blick und kann gewollt sein. Wie streng jede Regel gilt, ist einstellbar.",
            "Une faute enfreint une règle ; un avertissement mérite un second regard et peut être voulu. La rigueur de chaque règle se règle.",
            "Una falta rompe una regla; una advertencia merece otra mirada y puede ser intencionada. El rigor de cada regla se puede elegir."
        ),
        source: None,
    },
    Term {
        key: "pin",
        stems: phrase!("pins", "note fissate", "festgelegte töne", "notes fixées", "notas fijadas"),
        name: phrase!("pin", "nota fissata", "festgelegter Ton", "note fixée", "nota fijada"),
        meaning: phrase!(
            "A soprano note you have fixed; the other notes are set around it.",
            "Una nota del soprano che hai fissato; le altre si dispongono intorno.",
            "Ein Sopranton, den Sie festgelegt haben; die anderen werden um ihn gesetzt.",
            "Une note du soprano que vous avez fixée ; les autres se placent autour.",
            "Una nota del soprano que has fijado; las demás se colocan a su alrededor."
        ),
        source: None,
    },
    Term {
        key: "hinge",
        stems: phrase!("hinge", "cerniera", "angelpunkt", "pivot", "bisagra"),
        name: phrase!(
            "hinge, change of key",
            "cerniera, modulazione",
            "Angelpunkt, Modulation",
            "pivot, modulation",
            "bisagra, modulación"
        ),
        meaning: phrase!(
            "A chord that belongs to two keys, through which the music passes from one to the other.",
            "Un accordo che appartiene a due toni, per cui la musica passa dall’uno all’altro.",
            "Ein Akkord, der zwei Tonarten gehört und durch den die Musik von einer zur anderen geht.",
            "Un accord qui appartient à deux tons, par où la musique passe de l’un à l’autre.",
            "Un acorde que pertenece a dos tonos, por el que la música pasa de uno a otro."
        ),
        source: None,
    },
    Term {
        key: "tasto-solo",
        stems: phrase!(
            "tasto solo|bass alone",
            "tasto solo|basso solo",
            "tasto solo|bass allein",
            "tasto solo|basse seule",
            "tasto solo|bajo solo"
        ),
        name: phrase!("tasto solo", "tasto solo", "tasto solo", "tasto solo", "tasto solo"),
        meaning: phrase!(
            "The bass is played alone, without chords.",
            "Il basso si suona solo, senza accordi.",
            "Der Bass wird allein gespielt, ohne Akkorde.",
            "La basse se joue seule, sans accords.",
            "El bajo se toca solo, sin acordes."
        ),
        source: Some("C.P.E. Bach, Versuch II (1762)."),
    },
    Term {
        key: "partimento",
        stems: phrase!(
            "partimento|partimenti",
            "partimento|partimenti",
            "partimento|partimenti",
            "partimento|partimenti",
            "partimento|partimenti"
        ),
        name: phrase!("partimento", "partimento", "Partimento", "partimento", "partimento"),
        meaning: phrase!(
            "A bass, mostly without figures, written for practising how to make a piece from it.",
            "Un basso, per lo più senza cifre, scritto per esercitarsi a ricavarne un pezzo.",
            "Ein Bass, meist ohne Ziffern, geschrieben, um zu üben, wie man ein Stück daraus macht.",
            "Une basse, le plus souvent sans chiffres, écrite pour s’exercer à en tirer une pièce.",
            "Un bajo, casi siempre sin cifras, escrito para ejercitarse en sacar de él una pieza."
        ),
        source: Some("Fenaroli, Regole musicali (1775)."),
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Tongue;

    #[test]
    fn every_term_is_told_apart_and_explained_in_sentences() {
        for (i, term) in TERMS.iter().enumerate() {
            for lang in Tongue::ALL.map(Lang::of) {
                assert!(term.meaning(lang).ends_with('.'), "{}", term.key);
                let others = TERMS.iter().take(i);
                assert!(others.clone().all(|it| it.name(lang) != term.name(lang)), "{}", term.key);
                let stems = lang.say(term.stems).split('|');
                assert!(stems.clone().all(|it| it == it.to_lowercase()), "{}", term.key);
            }
        }
    }

    #[test]
    fn terms_are_marked_where_they_are_named_first() {
        let named = |text, lang| {
            let pieces = marked(text, lang);
            let all: String = pieces
                .iter()
                .map(|piece| match piece {
                    Piece::Plain(text) | Piece::Named(text, _) => *text,
                })
                .collect();
            assert_eq!(all, text);
            let named = pieces.iter().filter_map(|piece| match piece {
                Piece::Plain(_) => None,
                Piece::Named(word, term) => Some(format!("{word}={}", term.key)),
            });
            named.collect::<Vec<_>>()
        };
        assert_eq!(
            named(
                "E is the 2nd: the octave rule (Campion, 1716) gives it a suspended fourth.",
                Lang::English
            ),
            ["octave rule=octave-rule", "suspended=suspension"]
        );
        assert_eq!(
            named("Quintparallelen der Außenstimmen; die Quintparallelen", Lang::German),
            ["Quintparallelen=parallels", "Außenstimmen=outer-voices"]
        );
        assert_eq!(
            named("il ritardo non preparato, le acciaccature", Lang::Italian),
            ["ritardo=suspension", "acciaccature=acciaccatura"]
        );
    }
}
