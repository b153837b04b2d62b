//! Cadences, sequences and stock chords, in a sentence.

use super::chords::{degree_name, sounding};
use crate::harmony::{BassMotion, Cadence, Chord, Duty, Kind};
use crate::phrase;
use crate::pitch::{Interval, PitchClass};
use crate::words::Lang;
use crate::words::shape::{capital, list};

pub(super) fn cadence(chord: &Chord, kind: Cadence, stage: usize, lang: Lang) -> String {
    let bass = &lang.note(chord.bass.class());
    let tonic = &lang.note(chord.tonality.tonic);
    let key = &lang.tonality(chord.tonality);
    match (kind, stage) {
        (Cadence::Simple, _) => lang.tell(
            phrase!(
                "A simple cadence: {0}, the 5th of {1}, falls home to {2}.",
                "Cadenza semplice: {0}, 5° grado di {1}, torna a casa su {2}.",
                "Einfache Kadenz: {0}, die 5. Stufe von {1}, fällt heim nach {2}.",
                "Cadence simple : {0}, 5e degré de {1}, rentre à {2}.",
                "Cadencia simple: {0}, 5.º grado de {1}, vuelve a {2}."
            ),
            [bass, key, tonic],
        ),
        (Cadence::Compound, 0) => lang.tell(
            phrase!(
                "A compound cadence in {0}: {1} is struck twice, first with {2} to be resolved.",
                "Cadenza composta in {0}: {1} si batte due volte, prima con {2} da risolvere.",
                "Zusammengesetzte Kadenz in {0}: {1} wird zweimal angeschlagen, zuerst mit {2}, dann aufgelöst.",
                "Cadence composée en {0} : {1} est frappé deux fois, d’abord avec {2}, à résoudre.",
                "Cadencia compuesta en {0}: {1} se toca dos veces, primero con {2} por resolver."
            ),
            [key, bass, &sounding(chord, lang)],
        ),
        (Cadence::Compound, _) => lang.tell(
            phrase!(
                "The compound cadence resolves: the chord over {0} is now complete and falls home to {1}.",
                "La cadenza composta risolve: l’accordo su {0} è ora completo e torna a casa su {1}.",
                "Die zusammengesetzte Kadenz löst sich auf: Der Akkord über {0} ist nun vollständig und fällt heim nach {1}.",
                "La cadence composée se résout : l’accord sur {0} est maintenant complet et rentre à {1}.",
                "La cadencia compuesta resuelve: el acorde sobre {0} está ya completo y vuelve a {1}."
            ),
            [bass, tonic],
        ),
        (Cadence::Double, stage) => lang.tell(
            phrase!(
                "Stage {0} of a double cadence on the long {1}: {2}, before it falls home to {3}.",
                "Fase {0} di una cadenza doppia sul lungo {1}: {2}, prima di tornare a casa su {3}.",
                "Abschnitt {0} einer doppelten Kadenz auf dem langen {1}: {2}; danach fällt es heim nach {3}.",
                "Étape {0} d’une cadence double sur le long {1} : {2}, avant de rentrer à {3}.",
                "Fase {0} de una cadencia doble sobre el largo {1}: {2}, antes de volver a {3}."
            ),
            [&(stage + 1), bass, &sounding(chord, lang), tonic],
        ),
        (Cadence::Half, _) => lang.tell(
            phrase!(
                "A half cadence: the bass stops on {0}, the 5th of {1}, whose third is the leading note {2}.",
                "Cadenza sospesa: il basso si ferma su {0}, 5° grado di {1}, la cui terza è la sensibile {2}.",
                "Halbschluss: Der Bass hält auf {0}, der 5. Stufe von {1}, inne; ihre Terz ist der Leitton {2}.",
                "Demi-cadence : la basse s’arrête sur {0}, 5e degré de {1}, dont la tierce est la sensible {2}.",
                "Semicadencia: el bajo se detiene en {0}, 5.º grado de {1}, cuya tercera es la sensible {2}."
            ),
            [bass, key, &lang.note(chord.tonality.leading())],
        ),
        (Cadence::Phrygian, 0) => lang.tell(
            phrase!(
                "A Phrygian cadence: {0}, the lowered 6th of {1}, takes a sixth that opens outward to the octave as the bass falls to the 5th.",
                "Cadenza frigia: {0}, 6° grado abbassato di {1}, prende una sesta che si apre all’ottava mentre il basso scende al 5°.",
                "Phrygische Kadenz: {0}, die tiefe 6. Stufe von {1}, trägt eine Sexte, die sich zur Oktave öffnet, während der Bass zur 5. fällt.",
                "Cadence phrygienne : {0}, 6e degré abaissé de {1}, prend une sixte qui s’ouvre à l’octave pendant que la basse descend au 5e.",
                "Cadencia frigia: {0}, 6.º grado rebajado de {1}, toma una sexta que se abre a la octava mientras el bajo baja al 5.º."
            ),
            [bass, key],
        ),
        (Cadence::Phrygian, _) => lang.tell(
            phrase!(
                "The Phrygian cadence stops on {0}, the 5th of {1}, with a major third.",
                "La cadenza frigia si ferma su {0}, 5° grado di {1}, con la terza maggiore.",
                "Die phrygische Kadenz hält auf {0}, der 5. Stufe von {1}, mit großer Terz.",
                "La cadence phrygienne s’arrête sur {0}, 5e degré de {1}, avec la tierce majeure.",
                "La cadencia frigia se detiene en {0}, 5.º grado de {1}, con tercera mayor."
            ),
            [bass, key],
        ),
        (Cadence::Deceptive, 0) => lang.tell(
            phrase!(
                "{0}, the 5th of {1}, promises {2} but rises to the 6th instead: a deceptive cadence.",
                "{0}, 5° grado di {1}, promette {2} ma sale al 6°: cadenza d’inganno.",
                "{0}, die 5. Stufe von {1}, verspricht {2}, steigt aber zur 6.: ein Trugschluss.",
                "{0}, 5e degré de {1}, promet {2} mais monte au 6e : cadence rompue.",
                "{0}, 5.º grado de {1}, promete {2} pero sube al 6.º: cadencia rota."
            ),
            [bass, key, tonic],
        ),
        (Cadence::Deceptive, _) => lang.tell(
            phrase!(
                "The deceptive cadence lands on {0}, the 6th of {1}, with a plain chord where {2} was expected.",
                "La cadenza d’inganno arriva su {0}, 6° grado di {1}, con un accordo perfetto dove si aspettava {2}.",
                "Der Trugschluss landet auf {0}, der 6. Stufe von {1}, mit einem Dreiklang, wo {2} erwartet war.",
                "La cadence rompue aboutit sur {0}, 6e degré de {1}, avec un accord parfait là où l’on attendait {2}.",
                "La cadencia rota llega a {0}, 6.º grado de {1}, con un acorde perfecto donde se esperaba {2}."
            ),
            [bass, key, tonic],
        ),
        (Cadence::Evaded, _) => lang.tell(
            phrase!(
                "The cadence is evaded: the bass slips from the 5th to {0}, which carries the dominant on as {1} and must fall to the 3rd.",
                "La cadenza è evitata: il basso scivola dal 5° a {0}, che prosegue la dominante come {1} e deve scendere al 3°.",
                "Die Kadenz wird vermieden: Der Bass gleitet von der 5. nach {0} und trägt die Dominante weiter: {1}; er muss zur 3. fallen.",
                "La cadence est évitée : la basse glisse du 5e à {0}, qui prolonge la dominante par {1} et doit descendre au 3e.",
                "La cadencia se evita: el bajo se desliza del 5.º a {0}, que prolonga la dominante como {1} y debe bajar al 3.º."
            ),
            [bass, &sounding(chord, lang)],
        ),
    }
}

pub(super) fn sequence(chord: &Chord, motion: BassMotion, place: usize, lang: Lang) -> String {
    let what = lang.say(match motion {
        BassMotion::StepsUp => phrase!(
            "climbs by step",
            "sale di grado",
            "steigt schrittweise",
            "monte par degrés",
            "sube por grados"
        ),
        BassMotion::StepsDown => phrase!(
            "falls by step",
            "scende di grado",
            "fällt schrittweise",
            "descend par degrés",
            "baja por grados"
        ),
        BassMotion::ThirdsDownSecondsUp => phrase!(
            "falls a third and rises a second, over and over",
            "scende di terza e sale di seconda, più volte",
            "fällt immer wieder eine Terz und steigt eine Sekunde",
            "descend d’une tierce et monte d’une seconde, sans cesse",
            "baja una tercera y sube una segunda, una y otra vez"
        ),
        BassMotion::FourthsDownSecondsUp => phrase!(
            "falls a fourth and rises a second, over and over",
            "scende di quarta e sale di seconda, più volte",
            "fällt immer wieder eine Quarte und steigt eine Sekunde",
            "descend d’une quarte et monte d’une seconde, sans cesse",
            "baja una cuarta y sube una segunda, una y otra vez"
        ),
        BassMotion::FourthsUpFifthsDown => phrase!(
            "moves round in fourths up and fifths down",
            "gira salendo di quarta e scendendo di quinta",
            "geht im Kreis in Quarten auf und Quinten ab",
            "tourne en montant de quarte et descendant de quinte",
            "gira subiendo cuartas y bajando quintas"
        ),
        BassMotion::FifthsUpFourthsDown => phrase!(
            "climbs in fifths up and fourths down",
            "sale di quinta e scende di quarta",
            "steigt in Quinten auf und Quarten ab",
            "monte de quinte et descend de quarte",
            "sube quintas y baja cuartas"
        ),
        BassMotion::ThirdsUpSecondsDown => phrase!(
            "rises a third and falls a second, over and over",
            "sale di terza e scende di seconda, più volte",
            "steigt immer wieder eine Terz und fällt eine Sekunde",
            "monte d’une tierce et descend d’une seconde, sans cesse",
            "sube una tercera y baja una segunda, una y otra vez"
        ),
        BassMotion::ThirdsDownFourthsUp => phrase!(
            "falls a third and rises a fourth, over and over",
            "scende di terza e sale di quarta, più volte",
            "fällt immer wieder eine Terz und steigt eine Quarte",
            "descend d’une tierce et monte d’une quarte, sans cesse",
            "baja una tercera y sube una cuarta, una y otra vez"
        ),
        BassMotion::ThirdsDown => phrase!(
            "falls by thirds",
            "scende per terze",
            "fällt in Terzen",
            "descend par tierces",
            "baja por terceras"
        ),
        BassMotion::RepeatedRising => phrase!(
            "strikes each note twice and climbs by step",
            "batte ogni nota due volte e sale di grado",
            "schlägt jeden Ton zweimal an und steigt schrittweise",
            "frappe chaque note deux fois et monte par degrés",
            "toca cada nota dos veces y sube por grados"
        ),
        BassMotion::TiedFalling => phrase!(
            "ties each note over and falls by step",
            "lega ogni nota e scende di grado",
            "bindet jeden Ton über und fällt schrittweise",
            "lie chaque note et descend par degrés",
            "liga cada nota y baja por grados"
        ),
        BassMotion::ChromaticUp => phrase!(
            "climbs by semitones",
            "sale per semitoni",
            "steigt in Halbtönen",
            "monte par demi-tons",
            "sube por semitonos"
        ),
        BassMotion::ChromaticDown => phrase!(
            "falls by semitones",
            "scende per semitoni",
            "fällt in Halbtönen",
            "descend par demi-tons",
            "baja por semitonos"
        ),
    });
    let bass = lang.note(chord.bass.class());
    let phrase = if place == 0 {
        phrase!(
            "A sequence begins on {0}: the bass {1}, so each round has the same chords, here {2}.",
            "Su {0} comincia una progressione: il basso {1}, perciò ogni giro ha gli stessi accordi, qui {2}.",
            "Auf {0} beginnt eine Sequenz: Der Bass {1}, darum hat jede Runde dieselben Akkorde, hier: {2}.",
            "Une marche commence sur {0} : la basse {1}, chaque tour a donc les mêmes accords, ici {2}.",
            "En {0} empieza una progresión: el bajo {1}, por eso cada vuelta lleva los mismos acordes, aquí {2}."
        )
    } else {
        phrase!(
            "The sequence goes on, for the bass {1}: {0} takes {2}.",
            "La progressione continua, perché il basso {1}: {0} prende {2}.",
            "Die Sequenz geht weiter, denn der Bass {1}; auf {0} steht: {2}.",
            "La marche continue, car la basse {1} : {0} prend {2}.",
            "La progresión sigue, pues el bajo {1}: {0} toma {2}."
        )
    };
    lang.tell(phrase, [&bass, &what, &sounding(chord, lang)])
}

pub(super) fn stock(chord: &Chord, kind: Kind, kept: &[PitchClass], lang: Lang) -> String {
    let bass = &lang.note(chord.bass.class());
    let key = &lang.tonality(chord.tonality);
    let degree = &degree_name(chord.degree, lang);
    let sounds = &sounding(chord, lang);
    let what = match kind {
        Kind::Plain => lang.tell(
            phrase!(
                "{0}, the {1} of {2}, takes {3} of the scale",
                "{0}, {1} di {2}, prende {3} della scala",
                "Auf {0}, der {1} von {2}, steht leitereigen: {3}",
                "{0}, {1} de {2}, prend {3} de la gamme",
                "{0}, {1} de {2}, toma {3} de la escala"
            ),
            [bass, degree, key, sounds],
        ),
        Kind::Suspension => lang.tell(
            phrase!(
                "Over {0} a note of the chord before is held back and then falls by step: {1}",
                "Su {0} una nota dell’accordo precedente è ritardata e poi scende di grado: {1}",
                "Über {0} wird ein Ton des vorigen Akkords vorgehalten und fällt dann schrittweise: {1}",
                "Sur {0}, une note de l’accord précédent est retardée puis descend par degré : {1}",
                "Sobre {0} una nota del acorde anterior se retarda y luego baja por grado: {1}"
            ),
            [bass, sounds],
        ),
        Kind::SixFour => lang.tell(
            phrase!(
                "Over {0}, the 5th of {1}, sixth and fourth lean on the chord and fall into it",
                "Su {0}, 5° grado di {1}, sesta e quarta si appoggiano all’accordo e vi scendono",
                "Über {0}, der 5. Stufe von {1}, lehnen sich Sexte und Quarte an den Akkord und fallen in ihn",
                "Sur {0}, 5e degré de {1}, sixte et quarte s’appuient sur l’accord et y descendent",
                "Sobre {0}, 5.º grado de {1}, sexta y cuarta se apoyan en el acorde y caen en él"
            ),
            [bass, key],
        ),
        Kind::Pedal => lang.tell(
            phrase!(
                "{0} stays while the chord above it moves: {1}",
                "{0} resta mentre l’accordo sopra si muove: {1}",
                "{0} bleibt liegen, während der Akkord darüber sich bewegt: {1}",
                "{0} reste pendant que l’accord bouge au-dessus : {1}",
                "{0} queda mientras el acorde de encima se mueve: {1}"
            ),
            [bass, sounds],
        ),
        Kind::Held => lang.tell(
            phrase!(
                "The bass holds {0} over as the seventh of {1}, and must fall by step",
                "Il basso lega {0} come settima sotto {1}, e deve scendere di grado",
                "Der Bass bindet {0} als Septime über ({1}) und muss schrittweise fallen",
                "La basse lie {0} comme septième sous {1}, et doit descendre par degré",
                "El bajo liga {0} como séptima bajo {1}, y debe bajar por grado"
            ),
            [bass, sounds],
        ),
        Kind::Secondary => match target(chord) {
            Some(to) => lang.tell(
                phrase!(
                    "{0} is, for a moment, the dominant of {1}: its leading note is borrowed from there",
                    "{0} è per un momento la dominante di {1}: la sensibile ne è presa in prestito",
                    "{0} ist für einen Augenblick Dominante von {1}: Der Leitton ist von dort entlehnt",
                    "{0} est un instant la dominante de {1} : sa sensible y est empruntée",
                    "{0} es por un momento la dominante de {1}: su sensible se toma de allí"
                ),
                [&capital(sounds), &lang.note(to)],
            ),
            None => lang.tell(
                phrase!(
                    "{0} borrows a leading note",
                    "{0} prende in prestito una sensibile",
                    "{0} entlehnt einen Leitton",
                    "{0} emprunte une sensible",
                    "{0} toma prestada una sensible"
                ),
                [&capital(sounds)],
            ),
        },
        Kind::Borrowed => lang.tell(
            phrase!(
                "{0} is borrowed from the other mode on {1}",
                "{0} è in prestito dall’altro modo su {1}",
                "{0} ist aus dem anderen Tongeschlecht auf {1} entlehnt",
                "{0} est emprunté à l’autre mode sur {1}",
                "{0} se toma prestado del otro modo sobre {1}"
            ),
            [&capital(sounds), &lang.note(chord.tonality.tonic)],
        ),
        Kind::Neapolitan => lang.tell(
            phrase!(
                "The Neapolitan chord: {0} with the lowered 2nd of {1}, which falls",
                "L’accordo napoletano: {0} con il 2° grado abbassato di {1}, che scende",
                "Der Neapolitaner: {0} mit der tiefen 2. Stufe von {1}, die fällt",
                "L’accord napolitain : {0} avec le 2e degré abaissé de {1}, qui descend",
                "El acorde napolitano: {0} con el 2.º grado rebajado de {1}, que baja"
            ),
            [sounds, key],
        ),
        Kind::AugmentedSixth => lang.tell(
            phrase!(
                "An augmented sixth over {0}: it opens outward by semitones to the octave of the 5th",
                "Una sesta aumentata su {0}: si apre per semitoni all’ottava del 5° grado",
                "Eine übermäßige Sexte über {0}: Sie öffnet sich in Halbtönen zur Oktave der 5. Stufe",
                "Une sixte augmentée sur {0} : elle s’ouvre par demi-tons à l’octave du 5e degré",
                "Una sexta aumentada sobre {0}: se abre por semitonos a la octava del 5.º grado"
            ),
            [bass],
        ),
        Kind::Diminished => lang.tell(
            phrase!(
                "A diminished seventh: {0}, whose every note leans a semitone or so into the next chord",
                "Una settima diminuita: {0}, di cui ogni nota tende di un semitono o poco più all’accordo seguente",
                "Eine verminderte Septime: {0}; jeder Ton strebt etwa einen Halbton in den nächsten Akkord",
                "Une septième diminuée : {0}, dont chaque note tend d’un demi-ton environ vers l’accord suivant",
                "Una séptima disminuida: {0}, cada nota de la cual tiende cerca de un semitono al acorde siguiente"
            ),
            [sounds],
        ),
    };
    if kept.is_empty() {
        return format!("{what}.");
    }
    let names: Vec<String> = kept.iter().map(|class| lang.note(*class)).collect();
    let stays = if kept.len() == 1 {
        phrase!(
            "{0}; {1} stays from the chord before.",
            "{0}; {1} resta dall’accordo precedente.",
            "{0}; {1} bleibt vom vorigen Akkord.",
            "{0} ; {1} reste de l’accord précédent.",
            "{0}; {1} queda del acorde anterior."
        )
    } else {
        phrase!(
            "{0}; {1} stay from the chord before.",
            "{0}; {1} restano dall’accordo precedente.",
            "{0}; {1} bleiben vom vorigen Akkord.",
            "{0} ; {1} restent de l’accord précédent.",
            "{0}; {1} quedan del acorde anterior."
        )
    };
    lang.tell(stays, [&what, &list(&names, lang)])
}

/// The tonic a secondary dominant points to: a semitone above its rising note.
fn target(chord: &Chord) -> Option<PitchClass> {
    let rising = chord.tones.iter().find(|tone| tone.duty == Duty::Rises)?;
    Some(rising.class + Interval::new(1, 1))
}
