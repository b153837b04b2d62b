//! The rules of the outer voices in words: names, advice, faults in sentences.

use super::Lang;
use super::shape::capital;
use crate::frame::{Fault, InnerParallel, Motions, OuterPair, Perfect, PinConflict, Rule};
use crate::phrase;

/// The fault as one sentence, chords counted from 1:
/// "consecutive fifths between outer voices, chords 4–5: A–E to B–F♯".
pub fn fault(fault: &Fault, lang: Lang) -> String {
    let name = rule_name(fault.rule, lang);
    let (from, to) = (fault.from + 1, fault.to + 1);
    let first = pair(fault.first, lang);
    if from == to {
        return lang.tell(
            phrase!(
                "{0}, chord {1}: {2}",
                "{0}, accordo {1}: {2}",
                "{0}, Akkord {1}: {2}",
                "{0}, accord {1} : {2}",
                "{0}, acorde {1}: {2}"
            ),
            [&name, &from, &first],
        );
    }
    places(name, (from, to), &first, &pair(fault.last, lang), lang)
}

fn pair(pair: OuterPair, lang: Lang) -> String {
    format!("{}–{}", lang.note(pair.bass.class()), lang.note(pair.soprano.class()))
}

/// What is between two chords, with the voices in both.
fn places(name: &str, chords: (usize, usize), first: &str, last: &str, lang: Lang) -> String {
    lang.tell(
        phrase!(
            "{0}, chords {1}–{2}: {3} to {4}",
            "{0}, accordi {1}–{2}: da {3} a {4}",
            "{0}, Akkorde {1}–{2}: von {3} nach {4}",
            "{0}, accords {1}–{2} : de {3} à {4}",
            "{0}, acordes {1}–{2}: de {3} a {4}"
        ),
        [&name, &chords.0, &chords.1, &first, &last],
    )
}

/// Two inner voices in parallels as one phrase, chords counted from 1; information,
/// not a fault.
pub fn inner_parallel(parallel: &InnerParallel, lang: Lang) -> String {
    let name = lang.say(match parallel.kind {
        Perfect::Fifth => phrase!(
            "fifths in the inner voices",
            "quinte nelle voci interne",
            "Quinten in den Mittelstimmen",
            "quintes dans les voix intérieures",
            "quintas en las voces interiores"
        ),
        Perfect::Octave => phrase!(
            "octaves in the inner voices",
            "ottave nelle voci interne",
            "Oktaven in den Mittelstimmen",
            "octaves dans les voix intérieures",
            "octavas en las voces interiores"
        ),
    });
    let (lower, upper) = (parallel.lower, parallel.upper);
    let before = pair(OuterPair { bass: lower.0, soprano: upper.0 }, lang);
    let after = pair(OuterPair { bass: lower.1, soprano: upper.1 }, lang);
    places(name, (parallel.from + 1, parallel.from + 2), &before, &after, lang)
}

/// The balance of motions as one sentence.
pub fn motion_summary(motions: &Motions, lang: Lang) -> String {
    let kinds = [
        (
            motions.contrary,
            phrase!("1 contrary", "1 contrario", "1 gegenläufig", "1 contraire", "1 contrario"),
            phrase!(
                "{0} contrary",
                "{0} contrari",
                "{0} gegenläufig",
                "{0} contraires",
                "{0} contrarios"
            ),
        ),
        (
            motions.tenths,
            phrase!("1 in tenths", "1 in decime", "1 in Dezimen", "1 en dixièmes", "1 en décimas"),
            phrase!(
                "{0} in tenths",
                "{0} in decime",
                "{0} in Dezimen",
                "{0} en dixièmes",
                "{0} en décimas"
            ),
        ),
        (
            motions.sixths,
            phrase!("1 in sixths", "1 in seste", "1 in Sexten", "1 en sixtes", "1 en sextas"),
            phrase!(
                "{0} in sixths",
                "{0} in seste",
                "{0} in Sexten",
                "{0} en sixtes",
                "{0} en sextas"
            ),
        ),
        (
            motions.other_parallel,
            phrase!(
                "1 parallel otherwise",
                "1 parallelo d’altro genere",
                "1 anders parallel",
                "1 parallèle autrement",
                "1 paralelo de otro modo"
            ),
            phrase!(
                "{0} parallel otherwise",
                "{0} paralleli d’altro genere",
                "{0} anders parallel",
                "{0} parallèles autrement",
                "{0} paralelos de otro modo"
            ),
        ),
        (
            motions.oblique,
            phrase!("1 oblique", "1 obliquo", "1 seitlich", "1 oblique", "1 oblicuo"),
            phrase!("{0} oblique", "{0} obliqui", "{0} seitlich", "{0} obliques", "{0} oblicuos"),
        ),
        (
            motions.similar,
            phrase!("1 similar", "1 retto", "1 gerade", "1 direct", "1 directo"),
            phrase!("{0} similar", "{0} retti", "{0} gerade", "{0} directs", "{0} directos"),
        ),
    ];
    let said: Vec<String> = kinds
        .into_iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, more)| lang.count(count, one, more))
        .collect();
    if said.is_empty() {
        return lang
            .say(phrase!(
                "The outer voices do not move.",
                "Le voci estreme non si muovono.",
                "Die Außenstimmen bewegen sich nicht.",
                "Les voix extrêmes ne bougent pas.",
                "Las voces extremas no se mueven."
            ))
            .into();
    }
    let moves = lang.tell(
        phrase!(
            "Moves: {0}.",
            "Moti: {0}.",
            "Bewegungen: {0}.",
            "Mouvements : {0}.",
            "Movimientos: {0}."
        ),
        [&said.join(", ")],
    );
    if motions.similar + motions.other_parallel > 0 {
        return moves;
    }
    let safe = lang.say(phrase!(
        "No move can make consecutive fifths or octaves.",
        "Nessun moto può dare quinte o ottave parallele.",
        "Keine Bewegung kann Quint- oder Oktavparallelen ergeben.",
        "Aucun mouvement ne peut donner de quintes ni d’octaves parallèles.",
        "Ningún movimiento puede dar quintas ni octavas paralelas."
    ));
    format!("{moves} {safe}")
}

/// The quarrel as one sentence, chords counted from 1.
pub fn pin_conflict(conflict: &PinConflict, lang: Lang) -> String {
    let free = conflict.free + 1;
    match conflict.chords.as_slice() {
        [_] | [] => lang.tell(
            phrase!(
                "No clean line goes through the fixed soprano note over chord {0}; freeing it mends it.",
                "Nessuna linea corretta passa per la nota fissata del soprano sull’accordo {0}; liberarla rimedia.",
                "Keine reine Linie geht durch den festgelegten Sopranton über Akkord {0}; ihn freizugeben hilft.",
                "Aucune ligne correcte ne passe par la note fixée du soprano sur l’accord {0} ; la libérer y remédie.",
                "Ninguna línea correcta pasa por la nota fijada del soprano sobre el acorde {0}; soltarla lo remedia."
            ),
            [&free],
        ),
        [first, .., last] => lang.tell(
            phrase!(
                "The fixed soprano notes over chords {0} to {1} leave no clean line between them; freeing the one over chord {2} mends it.",
                "Le note fissate del soprano sugli accordi da {0} a {1} non lasciano alcuna linea corretta; liberare quella sull’accordo {2} rimedia.",
                "Die festgelegten Soprantöne über Akkord {0} bis {1} lassen keine reine Linie zu; den über Akkord {2} freizugeben hilft.",
                "Les notes fixées du soprano sur les accords {0} à {1} ne laissent aucune ligne correcte ; libérer celle de l’accord {2} y remédie.",
                "Las notas fijadas del soprano sobre los acordes {0} a {1} no dejan ninguna línea correcta; soltar la del acorde {2} lo remedia."
            ),
            [&(first + 1), &(last + 1), &free],
        ),
    }
}

/// The rule's name with a capital, as a heading.
pub fn rule_heading(rule: Rule, lang: Lang) -> String {
    capital(rule_name(rule, lang))
}

/// The rule's name in the trade's words, without a capital (but where nouns have
/// one) or a full stop.
pub fn rule_name(rule: Rule, lang: Lang) -> &'static str {
    lang.say(match rule {
        Rule::ConsecutiveOctaves => phrase!(
            "consecutive octaves between outer voices",
            "ottave parallele tra le voci estreme",
            "Oktavparallelen der Außenstimmen",
            "octaves parallèles entre voix extrêmes",
            "octavas paralelas entre voces extremas"
        ),
        Rule::ConsecutiveFifths => phrase!(
            "consecutive fifths between outer voices",
            "quinte parallele tra le voci estreme",
            "Quintparallelen der Außenstimmen",
            "quintes parallèles entre voix extrêmes",
            "quintas paralelas entre voces extremas"
        ),
        Rule::ContraryOctaves => phrase!(
            "consecutive octaves by contrary motion",
            "ottave consecutive per moto contrario",
            "Antiparallelen in Oktaven",
            "octaves consécutives par mouvement contraire",
            "octavas consecutivas por movimiento contrario"
        ),
        Rule::ContraryFifths => phrase!(
            "consecutive fifths by contrary motion",
            "quinte consecutive per moto contrario",
            "Antiparallelen in Quinten",
            "quintes consécutives par mouvement contraire",
            "quintas consecutivas por movimiento contrario"
        ),
        Rule::DiminishedToPerfect => phrase!(
            "diminished fifth to perfect fifth",
            "dalla quinta diminuita alla quinta giusta",
            "verminderte zu reiner Quinte",
            "quinte diminuée suivie de quinte juste",
            "quinta disminuida a quinta justa"
        ),
        Rule::HiddenOctaves => phrase!(
            "hidden octaves with a leaping soprano",
            "ottave nascoste con salto del soprano",
            "verdeckte Oktaven mit Sopransprung",
            "octaves cachées avec saut du soprano",
            "octavas ocultas con salto del soprano"
        ),
        Rule::HiddenFifths => phrase!(
            "hidden fifths with a leaping soprano",
            "quinte nascoste con salto del soprano",
            "verdeckte Quinten mit Sopransprung",
            "quintes cachées avec saut du soprano",
            "quintas ocultas con salto del soprano"
        ),
        Rule::MaskedConsecutives => phrase!(
            "consecutives with only an ornament between",
            "parallele separate solo da un ornamento",
            "Parallelen, nur durch eine Verzierung getrennt",
            "parallèles séparées par un seul ornement",
            "paralelas separadas solo por un adorno"
        ),
        Rule::UnrisenLeadingNote => phrase!(
            "leading note in the soprano does not rise",
            "la sensibile al soprano non sale",
            "Leitton im Sopran steigt nicht",
            "la sensible au soprano ne monte pas",
            "la sensible en el soprano no sube"
        ),
        Rule::UnfallenSeventh => phrase!(
            "dissonance in the soprano does not fall",
            "la dissonanza al soprano non scende",
            "Dissonanz im Sopran fällt nicht",
            "la dissonance au soprano ne descend pas",
            "la disonancia en el soprano no baja"
        ),
        Rule::UnpreparedSuspension => phrase!(
            "unprepared suspension in the soprano",
            "ritardo non preparato al soprano",
            "unvorbereiteter Vorhalt im Sopran",
            "retard non préparé au soprano",
            "retardo sin preparar en el soprano"
        ),
        Rule::UnresolvedSuspension => phrase!(
            "unresolved suspension in the soprano",
            "ritardo non risolto al soprano",
            "unaufgelöster Vorhalt im Sopran",
            "retard non résolu au soprano",
            "retardo sin resolver en el soprano"
        ),
        Rule::BassDuty => phrase!(
            "leading note or dissonance in the bass goes astray",
            "la sensibile o la dissonanza al basso va fuori strada",
            "Leitton oder Dissonanz im Bass geht fehl",
            "sensible ou dissonance à la basse mal conduite",
            "sensible o disonancia en el bajo mal conducida"
        ),
        Rule::DoubledDuty => phrase!(
            "leading note or dissonance doubled by the outer voices",
            "sensibile o dissonanza raddoppiata dalle voci estreme",
            "Leitton oder Dissonanz in den Außenstimmen verdoppelt",
            "sensible ou dissonance doublée par les voix extrêmes",
            "sensible o disonancia duplicada por las voces extremas"
        ),
        Rule::AugmentedStep => phrase!(
            "augmented step in the soprano",
            "intervallo aumentato al soprano",
            "übermäßiger Schritt im Sopran",
            "intervalle augmenté au soprano",
            "paso aumentado en el soprano"
        ),
        Rule::TritoneLeap => phrase!(
            "tritone leap in the soprano",
            "salto di tritono al soprano",
            "Tritonussprung im Sopran",
            "saut de triton au soprano",
            "salto de tritono en el soprano"
        ),
        Rule::DiminishedLeap => phrase!(
            "diminished leap that does not turn back",
            "salto diminuito che non torna indietro",
            "verminderter Sprung, der nicht umkehrt",
            "saut diminué sans retour",
            "salto disminuido que no vuelve"
        ),
        Rule::SeventhLeap => phrase!(
            "leap of a seventh in the soprano",
            "salto di settima al soprano",
            "Septimensprung im Sopran",
            "saut de septième au soprano",
            "salto de séptima en el soprano"
        ),
        Rule::WideLeap => phrase!(
            "leap past the octave in the soprano",
            "salto oltre l’ottava al soprano",
            "Sprung über die Oktave im Sopran",
            "saut de plus d’une octave au soprano",
            "salto de más de una octava en el soprano"
        ),
        Rule::LeapsTogether => phrase!(
            "outer voices leap together",
            "le voci estreme saltano insieme",
            "Außenstimmen springen gemeinsam",
            "les voix extrêmes sautent ensemble",
            "las voces extremas saltan juntas"
        ),
        Rule::VoiceCrossing => phrase!(
            "soprano below the bass",
            "soprano sotto il basso",
            "Sopran unter dem Bass",
            "soprano sous la basse",
            "soprano por debajo del bajo"
        ),
        Rule::VoiceOverlap => phrase!(
            "outer voices overlap",
            "le voci estreme si scavalcano",
            "Außenstimmen überlappen sich",
            "les voix extrêmes se chevauchent",
            "las voces extremas se solapan"
        ),
        Rule::CrossRelation => phrase!(
            "cross relation between outer voices",
            "falsa relazione tra le voci estreme",
            "Querstand der Außenstimmen",
            "fausse relation entre voix extrêmes",
            "falsa relación entre voces extremas"
        ),
        Rule::OutsideCompass => phrase!(
            "soprano outside its compass",
            "soprano fuori dal suo ambito",
            "Sopran außerhalb seines Umfangs",
            "soprano hors de son étendue",
            "soprano fuera de su ámbito"
        ),
        Rule::ForeignNote => phrase!(
            "soprano note foreign to its chord",
            "nota del soprano estranea all’accordo",
            "akkordfremder Sopranton",
            "note du soprano étrangère à l’accord",
            "nota del soprano ajena al acorde"
        ),
        Rule::SameNote => phrase!(
            "soprano stays on one note",
            "il soprano resta su una nota",
            "Sopran bleibt auf einem Ton",
            "le soprano reste sur une note",
            "el soprano se queda en una nota"
        ),
        Rule::Circling => phrase!(
            "soprano circles between two notes",
            "il soprano gira tra due note",
            "Sopran pendelt zwischen zwei Tönen",
            "le soprano tourne entre deux notes",
            "el soprano da vueltas entre dos notas"
        ),
    })
}

/// How to mend a breach of the rule, as one sentence.
pub fn rule_advice(rule: Rule, lang: Lang) -> &'static str {
    lang.say(match rule {
        Rule::ConsecutiveOctaves | Rule::ConsecutiveFifths => phrase!(
            "Let the soprano move against the bass, or take the tenth.",
            "Muovi il soprano contro il basso, o prendi la decima.",
            "Den Sopran gegen den Bass führen oder die Dezime nehmen.",
            "Menez le soprano contre la basse, ou prenez la dixième.",
            "Mueve el soprano contra el bajo, o toma la décima."
        ),
        Rule::ContraryOctaves | Rule::ContraryFifths => phrase!(
            "Take a third or a sixth for one of the two chords.",
            "Prendi una terza o una sesta in uno dei due accordi.",
            "In einem der beiden Akkorde eine Terz oder Sexte nehmen.",
            "Prenez une tierce ou une sixte pour l’un des deux accords.",
            "Toma una tercera o una sexta en uno de los dos acordes."
        ),
        Rule::DiminishedToPerfect => phrase!(
            "Let the diminished fifth close in to a third, its upper note falling.",
            "Fai chiudere la quinta diminuita in una terza, con la nota superiore che scende.",
            "Die verminderte Quinte in eine Terz schließen lassen, der obere Ton fällt.",
            "Laissez la quinte diminuée se fermer en tierce, sa note supérieure descendant.",
            "Deja que la quinta disminuida se cierre en una tercera, bajando su nota superior."
        ),
        Rule::HiddenOctaves | Rule::HiddenFifths => phrase!(
            "Bring the soprano in by step, or against the bass.",
            "Fai arrivare il soprano per grado, o contro il basso.",
            "Den Sopran schrittweise oder gegen den Bass eintreten lassen.",
            "Amenez le soprano par degré, ou contre la basse.",
            "Haz llegar el soprano por grado, o contra el bajo."
        ),
        Rule::MaskedConsecutives => phrase!(
            "Treat the ornament as absent and choose another soprano note for the next chord.",
            "Considera l’ornamento come assente e scegli un’altra nota del soprano per l’accordo seguente.",
            "Die Verzierung wegdenken und für den nächsten Akkord einen anderen Sopranton wählen.",
            "Tenez l’ornement pour absent et choisissez une autre note du soprano pour l’accord suivant.",
            "Considera ausente el adorno y elige otra nota del soprano para el acorde siguiente."
        ),
        Rule::UnrisenLeadingNote => phrase!(
            "Let the soprano rise a step, or give this note to an inner voice.",
            "Fai salire il soprano di grado, o dai questa nota a una voce interna.",
            "Den Sopran einen Schritt steigen lassen oder diesen Ton einer Mittelstimme geben.",
            "Faites monter le soprano d’un degré, ou donnez cette note à une voix intérieure.",
            "Haz subir el soprano un grado, o da esta nota a una voz interior."
        ),
        Rule::UnfallenSeventh => phrase!(
            "Let the soprano fall a step, or give this note to an inner voice.",
            "Fai scendere il soprano di grado, o dai questa nota a una voce interna.",
            "Den Sopran einen Schritt fallen lassen oder diesen Ton einer Mittelstimme geben.",
            "Faites descendre le soprano d’un degré, ou donnez cette note à une voix intérieure.",
            "Haz bajar el soprano un grado, o da esta nota a una voz interior."
        ),
        Rule::UnpreparedSuspension => phrase!(
            "Hold the same note over from the chord before.",
            "Tieni la stessa nota dall’accordo precedente.",
            "Denselben Ton aus dem vorigen Akkord liegen lassen.",
            "Tenez la même note depuis l’accord précédent.",
            "Mantén la misma nota desde el acorde anterior."
        ),
        Rule::UnresolvedSuspension => phrase!(
            "Let the soprano fall a step in the next chord.",
            "Fai scendere il soprano di grado nell’accordo seguente.",
            "Den Sopran im nächsten Akkord einen Schritt fallen lassen.",
            "Faites descendre le soprano d’un degré à l’accord suivant.",
            "Haz bajar el soprano un grado en el acorde siguiente."
        ),
        Rule::BassDuty => phrase!(
            "Move the bass by step where it wants to go, or give it a plainer chord.",
            "Muovi il basso di grado dove vuole andare, o dagli un accordo più semplice.",
            "Den Bass schrittweise dorthin führen, wohin er will, oder ihm einen schlichteren Akkord geben.",
            "Menez la basse par degré où elle veut aller, ou donnez-lui un accord plus simple.",
            "Lleva el bajo por grado a donde quiere ir, o dale un acorde más sencillo."
        ),
        Rule::DoubledDuty => phrase!(
            "Put another note of the chord on top.",
            "Metti in alto un’altra nota dell’accordo.",
            "Einen anderen Ton des Akkords nach oben legen.",
            "Mettez une autre note de l’accord en haut.",
            "Pon arriba otra nota del acorde."
        ),
        Rule::AugmentedStep => phrase!(
            "Go the other way round, or use the other form of the scale.",
            "Vai per l’altra strada, o usa l’altra forma della scala.",
            "Andersherum gehen oder die andere Form der Tonleiter nehmen.",
            "Passez dans l’autre sens, ou prenez l’autre forme de la gamme.",
            "Ve en el otro sentido, o usa la otra forma de la escala."
        ),
        Rule::TritoneLeap => phrase!(
            "Fill the leap, or leap the other way by a diminished fifth and turn back.",
            "Riempi il salto, o salta nell’altro senso di quinta diminuita e torna indietro.",
            "Den Sprung ausfüllen oder andersherum um eine verminderte Quinte springen und umkehren.",
            "Remplissez le saut, ou sautez dans l’autre sens d’une quinte diminuée et revenez.",
            "Rellena el salto, o salta en el otro sentido una quinta disminuida y vuelve."
        ),
        Rule::DiminishedLeap => phrase!(
            "Follow the leap with a step back inside it.",
            "Fai seguire al salto un grado che vi rientra.",
            "Auf den Sprung einen Schritt zurück in ihn hinein folgen lassen.",
            "Faites suivre le saut d’un degré qui y revient.",
            "Haz seguir el salto de un grado que vuelva dentro."
        ),
        Rule::SeventhLeap => phrase!(
            "Take the step the other way, or an octave.",
            "Prendi il grado nell’altro senso, o un’ottava.",
            "Den Schritt in der anderen Richtung nehmen oder eine Oktave.",
            "Prenez le degré dans l’autre sens, ou une octave.",
            "Toma el grado en el otro sentido, o una octava."
        ),
        Rule::WideLeap => phrase!(
            "Bring the soprano nearer in the chord before or after.",
            "Avvicina il soprano nell’accordo precedente o seguente.",
            "Den Sopran im Akkord davor oder danach näher bringen.",
            "Rapprochez le soprano à l’accord précédent ou suivant.",
            "Acerca el soprano en el acorde anterior o siguiente."
        ),
        Rule::LeapsTogether => phrase!(
            "Let one voice stay or move by step.",
            "Fai restare una voce o muoverla per grado.",
            "Eine Stimme liegen lassen oder schrittweise führen.",
            "Laissez une voix en place ou menez-la par degré.",
            "Deja quieta una voz o muévela por grado."
        ),
        Rule::VoiceCrossing => phrase!(
            "Raise the soprano by an octave.",
            "Alza il soprano di un’ottava.",
            "Den Sopran um eine Oktave heben.",
            "Haussez le soprano d’une octave.",
            "Sube el soprano una octava."
        ),
        Rule::VoiceOverlap => phrase!(
            "Keep the soprano above where the bass has just been and is going.",
            "Tieni il soprano sopra dove il basso è appena stato e dove va.",
            "Den Sopran über dem halten, wo der Bass eben war und hingeht.",
            "Tenez le soprano au-dessus d’où la basse vient et où elle va.",
            "Mantén el soprano por encima de donde el bajo acaba de estar y adonde va."
        ),
        Rule::CrossRelation => phrase!(
            "Let one voice make the chromatic step itself.",
            "Lascia che una sola voce faccia il passo cromatico.",
            "Eine Stimme allein den chromatischen Schritt machen lassen.",
            "Laissez une même voix faire le pas chromatique.",
            "Deja que una misma voz haga el paso cromático."
        ),
        Rule::OutsideCompass => phrase!(
            "Choose a lower or higher octave, or widen the soprano’s compass.",
            "Scegli un’ottava più bassa o più alta, o allarga l’ambito del soprano.",
            "Eine tiefere oder höhere Oktave wählen oder den Umfang des Soprans erweitern.",
            "Choisissez une octave plus basse ou plus haute, ou élargissez l’étendue du soprano.",
            "Elige una octava más baja o más alta, o amplía el ámbito del soprano."
        ),
        Rule::ForeignNote => phrase!(
            "Move the note to one of the chord’s, or change the figures so that it belongs.",
            "Sposta la nota su una dell’accordo, o cambia le cifre perché ne faccia parte.",
            "Den Ton auf einen Akkordton rücken oder die Ziffern so ändern, dass er dazugehört.",
            "Déplacez la note sur une de l’accord, ou changez les chiffres pour qu’elle en soit.",
            "Mueve la nota a una del acorde, o cambia las cifras para que pertenezca."
        ),
        Rule::SameNote => phrase!(
            "Let the soprano move on while the bass moves.",
            "Fai muovere il soprano mentre il basso si muove.",
            "Den Sopran weitergehen lassen, während der Bass geht.",
            "Faites avancer le soprano pendant que la basse avance.",
            "Haz avanzar el soprano mientras el bajo se mueve."
        ),
        Rule::Circling => phrase!(
            "Let the line rise or fall to somewhere.",
            "Fai salire o scendere la linea verso una meta.",
            "Die Linie irgendwohin steigen oder fallen lassen.",
            "Faites monter ou descendre la ligne vers un but.",
            "Haz que la línea suba o baje hacia alguna parte."
        ),
    })
}
