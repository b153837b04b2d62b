//! Why a chord is there, in a sentence.

use super::chords::{degree_name, sounding};
use super::moves::{cadence, sequence, stock};
use crate::harmony::{Chord, Direction, Reason, Version};
use crate::phrase;
use crate::words::Lang;

/// The chord's reason as one sentence.
pub fn reason(chord: &Chord, lang: Lang) -> String {
    why(chord, &chord.reason, lang)
}

fn why(chord: &Chord, reason: &Reason, lang: Lang) -> String {
    let bass = &lang.note(chord.bass.class());
    let key = &lang.tonality(chord.tonality);
    let degree = &degree_name(chord.degree, lang);
    match reason {
        Reason::Given => lang.tell(
            phrase!(
                "You figured this {0} yourself, and it is played as written.",
                "Hai cifrato tu questo {0}, e si suona com’è scritto.",
                "Sie haben dieses {0} selbst beziffert, und es wird gespielt wie geschrieben.",
                "Vous avez chiffré ce {0} vous-même, et il est joué comme écrit.",
                "Tú cifraste este {0}, y se toca como está escrito."
            ),
            [bass],
        ),
        Reason::Stays => lang.tell(
            phrase!(
                "{0} is struck again without new figures, so the chord you figured stays.",
                "{0} si ripete senza nuove cifre, perciò resta l’accordo che hai cifrato.",
                "{0} wird ohne neue Ziffern noch einmal angeschlagen, darum bleibt der bezifferte Akkord.",
                "{0} est rejoué sans nouveaux chiffres : l’accord que vous avez chiffré reste.",
                "{0} se repite sin cifras nuevas, así que el acorde que cifraste permanece."
            ),
            [bass],
        ),
        Reason::Opening => lang.tell(
            phrase!(
                "The piece opens on the plain chord of {0}, to set the key.",
                "Il pezzo si apre con l’accordo perfetto di {0}, per stabilire il tono.",
                "Das Stück beginnt mit dem Dreiklang von {0}, um die Tonart zu setzen.",
                "La pièce s’ouvre sur l’accord parfait de {0}, pour poser le ton.",
                "La pieza se abre con el acorde perfecto de {0}, para fijar el tono."
            ),
            [key],
        ),
        Reason::Closing => lang.tell(
            phrase!(
                "The piece comes to rest on the plain chord of {0}.",
                "Il pezzo si posa sull’accordo perfetto di {0}.",
                "Das Stück kommt auf dem Dreiklang von {0} zur Ruhe.",
                "La pièce se pose sur l’accord parfait de {0}.",
                "La pieza descansa en el acorde perfecto de {0}."
            ),
            [key],
        ),
        Reason::Octave { version, leaves } => lang.tell(
            match leaves {
                Direction::Up => phrase!(
                    "{0} is the {1} of {2} and rises by step: the octave rule{3} gives it {4}.",
                    "{0} è il {1} di {2} e sale di grado: la regola dell’ottava{3} gli dà {4}.",
                    "{0} ist die {1} von {2} und steigt schrittweise; die Oktavregel{3} gibt: {4}.",
                    "{0} est le {1} de {2} et monte par degré : la règle de l’octave{3} lui donne {4}.",
                    "{0} es el {1} de {2} y sube por grado: la regla de la octava{3} le da {4}."
                ),
                Direction::Down => phrase!(
                    "{0} is the {1} of {2} and falls by step: the octave rule{3} gives it {4}.",
                    "{0} è il {1} di {2} e scende di grado: la regola dell’ottava{3} gli dà {4}.",
                    "{0} ist die {1} von {2} und fällt schrittweise; die Oktavregel{3} gibt: {4}.",
                    "{0} est le {1} de {2} et descend par degré : la règle de l’octave{3} lui donne {4}.",
                    "{0} es el {1} de {2} y baja por grado: la regla de la octava{3} le da {4}."
                ),
            },
            [bass, degree, key, &after(*version, lang), &sounding(chord, lang)],
        ),
        Reason::Leap { to } => lang.tell(
            phrase!(
                "{0} is the {1} of {2} and leaps on to {3}, so the octave rule does not apply: it takes {4}.",
                "{0} è il {1} di {2} e salta a {3}, perciò la regola dell’ottava non vale: prende {4}.",
                "{0} ist die {1} von {2} und springt weiter nach {3}; die Oktavregel gilt hier nicht, es steht: {4}.",
                "{0} est le {1} de {2} et saute à {3} : la règle de l’octave ne s’applique pas, il prend {4}.",
                "{0} es el {1} de {2} y salta a {3}, así que la regla de la octava no se aplica: toma {4}."
            ),
            [bass, degree, key, &lang.note(*to), &sounding(chord, lang)],
        ),
        Reason::Stop => lang.tell(
            phrase!(
                "The bass stops on {0}, the {1} of {2}, with {3}.",
                "Il basso si ferma su {0}, {1} di {2}, con {3}.",
                "Der Bass hält auf {0}, der {1} von {2}, inne: {3}.",
                "La basse s’arrête sur {0}, {1} de {2}, avec {3}.",
                "El bajo se detiene en {0}, {1} de {2}, con {3}."
            ),
            [bass, degree, key, &sounding(chord, lang)],
        ),
        Reason::Cadence { kind, stage } => cadence(chord, *kind, *stage, lang),
        Reason::Semitone { to } => lang.tell(
            phrase!(
                "{0} moves on by a semitone to {1}, within one letter; on the {2} of {3} it takes {4}.",
                "{0} procede di semitono a {1}, con lo stesso nome; sul {2} di {3} prende {4}.",
                "{0} geht einen chromatischen Halbton weiter nach {1}; auf der {2} von {3} steht: {4}.",
                "{0} avance d’un demi-ton chromatique à {1} ; sur le {2} de {3}, il prend {4}.",
                "{0} avanza un semitono cromático a {1}; en el {2} de {3} toma {4}."
            ),
            [bass, &lang.note(*to), degree, key, &sounding(chord, lang)],
        ),
        Reason::Led { from } => lang.tell(
            phrase!(
                "{0} led up to {1} as to a tonic, so {1} takes a chord to rest on: {2}.",
                "{0} ha condotto a {1} come a una tonica, perciò {1} prende un accordo di riposo: {2}.",
                "{0} führte zu {1} wie zu einer Tonika, darum bekommt {1} einen Ruheakkord: {2}.",
                "{0} a mené à {1} comme à une tonique : {1} prend donc un accord de repos, {2}.",
                "{0} condujo a {1} como a una tónica, por eso {1} toma un acorde de reposo: {2}."
            ),
            [&lang.note(*from), bass, &sounding(chord, lang)],
        ),
        Reason::Motion { motion, place } => sequence(chord, *motion, *place, lang),
        Reason::Pedal { place: 0 } => lang.tell(
            phrase!(
                "{0} is held as a pedal on the tonic; it starts from the plain chord.",
                "{0} è tenuto come pedale di tonica; comincia dall’accordo perfetto.",
                "{0} liegt als Orgelpunkt auf der Tonika; es beginnt mit dem Dreiklang.",
                "{0} est tenu en pédale de tonique ; il part de l’accord parfait.",
                "{0} se mantiene como pedal de tónica; parte del acorde perfecto."
            ),
            [bass],
        ),
        Reason::Pedal { .. } => lang.tell(
            phrase!(
                "{0} stays in the bass as a pedal on the tonic while the chord above it moves: {1}.",
                "{0} resta al basso come pedale di tonica mentre l’accordo sopra si muove: {1}.",
                "{0} bleibt als Orgelpunkt auf der Tonika im Bass, während der Akkord darüber sich bewegt: {1}.",
                "{0} reste à la basse en pédale de tonique pendant que l’accord bouge au-dessus : {1}.",
                "{0} queda en el bajo como pedal de tónica mientras el acorde de encima se mueve: {1}."
            ),
            [bass, &sounding(chord, lang)],
        ),
        Reason::Usage { version: Version::Madrigals, percent, to } => match to {
            Some(to) => lang.tell(
                phrase!(
                    "In madrigals about 1600, {0} as the {1} of {2} that goes on to {3} has {4} about {5} times in a hundred.",
                    "Nei madrigali intorno al 1600, {0} come {1} di {2} che va a {3} ha {4} circa {5} volte su cento.",
                    "In Madrigalen um 1600 hat {0} als {1} von {2}, wenn es nach {3} geht, in etwa {5} von hundert Fällen: {4}.",
                    "Dans les madrigaux vers 1600, {0} comme {1} de {2} allant à {3} a {4} environ {5} fois sur cent.",
                    "En los madrigales hacia 1600, {0} como {1} de {2} que va a {3} lleva {4} unas {5} veces de cada cien."
                ),
                [bass, degree, key, &lang.note(*to), &sounding(chord, lang), percent],
            ),
            None => lang.tell(
                phrase!(
                    "In madrigals about 1600, {0} as the {1} of {2} that stops here has {3} about {4} times in a hundred.",
                    "Nei madrigali intorno al 1600, {0} come {1} di {2} che si ferma qui ha {3} circa {4} volte su cento.",
                    "In Madrigalen um 1600 hat {0} als {1} von {2}, wenn es hier innehält, in etwa {4} von hundert Fällen: {3}.",
                    "Dans les madrigaux vers 1600, {0} comme {1} de {2} s’arrêtant ici a {3} environ {4} fois sur cent.",
                    "En los madrigales hacia 1600, {0} como {1} de {2} que se detiene aquí lleva {3} unas {4} veces de cada cien."
                ),
                [bass, degree, key, &sounding(chord, lang), percent],
            ),
        },
        Reason::Usage { percent, to, .. } => match to {
            Some(to) => lang.tell(
                phrase!(
                    "In four-part chorales, {0} as the {1} of {2} that goes on to {3} has {4} about {5} times in a hundred.",
                    "Nei corali a quattro voci, {0} come {1} di {2} che va a {3} ha {4} circa {5} volte su cento.",
                    "In vierstimmigen Chorälen hat {0} als {1} von {2}, wenn es nach {3} geht, in etwa {5} von hundert Fällen: {4}.",
                    "Dans les chorals à quatre voix, {0} comme {1} de {2} allant à {3} a {4} environ {5} fois sur cent.",
                    "En los corales a cuatro voces, {0} como {1} de {2} que va a {3} lleva {4} unas {5} veces de cada cien."
                ),
                [bass, degree, key, &lang.note(*to), &sounding(chord, lang), percent],
            ),
            None => lang.tell(
                phrase!(
                    "In four-part chorales, {0} as the {1} of {2} that stops here has {3} about {4} times in a hundred.",
                    "Nei corali a quattro voci, {0} come {1} di {2} che si ferma qui ha {3} circa {4} volte su cento.",
                    "In vierstimmigen Chorälen hat {0} als {1} von {2}, wenn es hier innehält, in etwa {4} von hundert Fällen: {3}.",
                    "Dans les chorals à quatre voix, {0} comme {1} de {2} s’arrêtant ici a {3} environ {4} fois sur cent.",
                    "En los corales a cuatro voces, {0} como {1} de {2} que se detiene aquí lleva {3} unas {4} veces de cada cien."
                ),
                [bass, degree, key, &sounding(chord, lang), percent],
            ),
        },
        Reason::Stock { kind, kept } => stock(chord, *kind, kept, lang),
        Reason::Hinge { from, was, why: then } => lang.tell(
            phrase!(
                "Hinge: this chord was the {0} of {1}; from here {2} is read as the {3} of {4}. {5}",
                "Cerniera: questo accordo era il {0} di {1}; da qui {2} si legge come {3} di {4}. {5}",
                "Angelpunkt: Dieser Akkord war die {0} von {1}; ab hier gilt {2} als {3} von {4}. {5}",
                "Pivot : cet accord était le {0} de {1} ; d’ici on lit {2} comme {3} de {4}. {5}",
                "Bisagra: este acorde era el {0} de {1}; desde aquí {2} se lee como {3} de {4}. {5}"
            ),
            [
                &degree_name(*was, lang),
                &lang.tonality(*from),
                bass,
                degree,
                key,
                &why(chord, then, lang),
            ],
        ),
        Reason::Respelled { from, why: then } => lang.tell(
            phrase!(
                "Enharmonic hinge: the keys of this diminished seventh were heard in {0}; from here they are spelled {1} and lead into {2}. {3}",
                "Cerniera enarmonica: i tasti di questa settima diminuita si udivano in {0}; da qui si scrivono {1} e portano a {2}. {3}",
                "Enharmonischer Angelpunkt: Die Tasten dieses verminderten Septakkords klangen in {0}; ab hier heißen sie {1} und führen nach {2}. {3}",
                "Pivot enharmonique : les touches de cette septième diminuée s’entendaient en {0} ; d’ici elles s’écrivent {1} et mènent à {2}. {3}",
                "Bisagra enarmónica: las teclas de esta séptima disminuida se oían en {0}; desde aquí se escriben {1} y llevan a {2}. {3}"
            ),
            [&lang.tonality(*from), &spelled(chord, lang), key, &why(chord, then, lang)],
        ),
        Reason::Deceptive { to } => lang.tell(
            phrase!(
                "Deceptive: the leading note {0} rises to {1} as the ear expects, but the chord over {2} stands on {3}, not on the tonic.",
                "D’inganno: la sensibile {0} sale a {1} come l’orecchio aspetta, ma l’accordo su {2} ha per fondamento {3}, non la tonica.",
                "Trugschluss: Der Leitton {0} steigt wie erwartet nach {1}, doch der Akkord über {2} hat {3} zum Grundton, nicht die Tonika.",
                "Cadence rompue : la sensible {0} monte à {1} comme l’oreille l’attend, mais l’accord sur {2} a {3} pour fondamentale, non la tonique.",
                "De engaño: la sensible {0} sube a {1} como espera el oído, pero el acorde sobre {2} tiene {3} por fundamental, no la tónica."
            ),
            [
                &lang.note(chord.tonality.leading()),
                &lang.note(chord.tonality.tonic),
                bass,
                &lang.note(*to),
            ],
        ),
        Reason::Enharmonic { to } => lang.tell(
            phrase!(
                "The keys of a diminished seventh over {0}, spelled {1}: so its leading note is {2}, and it can turn the music to {3}.",
                "I tasti di una settima diminuita su {0}, scritti {1}: così la sensibile è {2}, e la musica può volgere a {3}.",
                "Die Tasten eines verminderten Septakkords über {0}, geschrieben {1}: So ist {2} der Leitton, und die Musik kann sich nach {3} wenden.",
                "Les touches d’une septième diminuée sur {0}, écrites {1} : la sensible est alors {2}, et la musique peut tourner vers {3}.",
                "Las teclas de una séptima disminuida sobre {0}, escritas {1}: así la sensible es {2}, y la música puede girar hacia {3}."
            ),
            [bass, &spelled(chord, lang), &lang.note(to.leading()), &lang.tonality(*to)],
        ),
        Reason::Turn { from, why: then } => lang.tell(
            phrase!(
                "The music leaves {0} for {1} here, without a chord in common. {2}",
                "Qui la musica lascia {0} per {1}, senza un accordo comune. {2}",
                "Hier verlässt die Musik {0} und geht nach {1}, ohne gemeinsamen Akkord. {2}",
                "La musique quitte ici {0} pour {1}, sans accord commun. {2}",
                "Aquí la música deja {0} por {1}, sin acorde común. {2}"
            ),
            [&lang.tonality(*from), key, &why(chord, then, lang)],
        ),
        Reason::LeadingBass { to } => lang.tell(
            phrase!(
                "{0} is not in the scale of {1}: it leads up a semitone to {2} as a leading note and takes {3}.",
                "{0} non è nella scala di {1}: sale di semitono a {2} come sensibile e prende {3}.",
                "{0} gehört nicht zur Leiter von {1}: Es führt als Leitton einen Halbton hinauf nach {2}; es steht: {3}.",
                "{0} n’est pas dans la gamme de {1} : il monte d’un demi-ton à {2} comme sensible et prend {3}.",
                "{0} no está en la escala de {1}: sube un semitono a {2} como sensible y toma {3}."
            ),
            [bass, key, &lang.note(*to), &sounding(chord, lang)],
        ),
        Reason::SeventhBass { to } => lang.tell(
            phrase!(
                "{0} is not in the scale of {1}: it is the seventh of a dominant, held in the bass, and falls to {2}.",
                "{0} non è nella scala di {1}: è la settima di una dominante, tenuta al basso, e scende a {2}.",
                "{0} gehört nicht zur Leiter von {1}: Es ist die Septime einer Dominante, im Bass gehalten, und fällt nach {2}.",
                "{0} n’est pas dans la gamme de {1} : c’est la septième d’une dominante, tenue à la basse, et elle descend à {2}.",
                "{0} no está en la escala de {1}: es la séptima de una dominante, mantenida en el bajo, y baja a {2}."
            ),
            [bass, key, &lang.note(*to)],
        ),
        Reason::Borrowed => lang.tell(
            phrase!(
                "{0}, the lowered {1}, is borrowed from the minor on {2} and takes {3}.",
                "{0}, {1} abbassato, è preso in prestito dal minore di {2} e prende {3}.",
                "{0}, die erniedrigte {1}, ist aus Moll auf {2} entlehnt; es steht: {3}.",
                "{0}, {1} abaissé, est emprunté au mineur de {2} et prend {3}.",
                "{0}, {1} rebajado, se toma prestado del menor de {2} y toma {3}."
            ),
            [bass, degree, &lang.note(chord.tonality.tonic), &sounding(chord, lang)],
        ),
        Reason::Foreign => lang.tell(
            phrase!(
                "{0} belongs to no scale near by, so it takes {1} by the signature.",
                "{0} non appartiene ad alcuna scala vicina, perciò prende {1} secondo l’armatura.",
                "{0} gehört zu keiner nahen Leiter; nach der Vorzeichnung steht: {1}.",
                "{0} n’appartient à aucune gamme voisine : il prend donc {1} selon l’armure.",
                "{0} no pertenece a ninguna escala cercana, por eso toma {1} según la armadura."
            ),
            [bass, &sounding(chord, lang)],
        ),
    }
}

fn after(version: Version, lang: Lang) -> &'static str {
    match version {
        Version::Campion => " (Campion, 1716)",
        Version::Rameau => " (Rameau, 1722)",
        Version::Fenaroli => " (Fenaroli, 1775)",
        Version::Gasparini => " (Gasparini, 1708)",
        Version::Heinichen => " (Heinichen, 1728)",
        Version::Chorales | Version::Madrigals => "",
        Version::AugmentedSixth => lang.say(phrase!(
            " (with the later augmented sixth)",
            " (con la più tarda sesta aumentata)",
            " (mit der späteren übermäßigen Sexte)",
            " (avec la sixte augmentée plus tardive)",
            " (con la sexta aumentada posterior)"
        )),
    }
}

/// The notes above the bass: "D F A♭".
fn spelled(chord: &Chord, lang: Lang) -> String {
    let tones = chord.tones.iter().filter(|tone| tone.number != 1);
    tones.map(|tone| lang.note(tone.class)).collect::<Vec<_>>().join(" ")
}
