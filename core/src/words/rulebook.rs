//! The rulebook explained: why each rule is there, and who says so.
//!
//! The sources are cited from memory of the books unless the sentence says
//! otherwise; "common practice" has no single source.

use super::Lang;
use crate::frame::Rule;
use crate::phrase;

/// Why the rule is there, as one sentence or two.
pub fn rule_explained(rule: Rule, lang: Lang) -> &'static str {
    lang.say(match rule {
        Rule::ConsecutiveOctaves => phrase!(
            "Two octaves or unisons running make one voice of two: the soprano only doubles the bass. Both voices must have moved, the same way.",
            "Due ottave o unisoni di seguito fanno di due voci una sola: il soprano raddoppia soltanto il basso. Entrambe le voci devono essersi mosse, nello stesso senso.",
            "Zwei Oktaven oder Einklänge nacheinander machen aus zwei Stimmen eine: Der Sopran verdoppelt nur den Bass. Beide Stimmen müssen sich bewegt haben, in dieselbe Richtung.",
            "Deux octaves ou unissons de suite font de deux voix une seule : le soprano ne fait que doubler la basse. Les deux voix doivent avoir bougé, dans le même sens.",
            "Dos octavas o unísonos seguidos hacen de dos voces una: el soprano solo duplica el bajo. Ambas voces deben haberse movido, en el mismo sentido.",
        ),
        Rule::ConsecutiveFifths => phrase!(
            "Two perfect fifths running tie the voices together and sound hollow. Both voices must have moved, the same way; a fifth and a twelfth count alike, a diminished fifth does not count.",
            "Due quinte giuste di seguito legano le voci tra loro e suonano vuote. Entrambe le voci devono essersi mosse, nello stesso senso; quinta e dodicesima valgono lo stesso, la quinta diminuita non conta.",
            "Zwei reine Quinten nacheinander binden die Stimmen aneinander und klingen hohl. Beide Stimmen müssen sich bewegt haben, in dieselbe Richtung; Quinte und Duodezime gelten gleich, eine verminderte Quinte zählt nicht.",
            "Deux quintes justes de suite lient les voix l’une à l’autre et sonnent creux. Les deux voix doivent avoir bougé, dans le même sens ; quinte et douzième comptent de même, une quinte diminuée ne compte pas.",
            "Dos quintas justas seguidas atan las voces entre sí y suenan huecas. Ambas voces deben haberse movido, en el mismo sentido; quinta y duodécima cuentan igual, la quinta disminuida no cuenta.",
        ),
        Rule::ContraryOctaves => phrase!(
            "An octave followed by a unison or a fifteenth is still two octaves, only less plain because the voices move against each other.",
            "Un’ottava seguita da un unisono o da una quindicesima è pur sempre due ottave, solo meno evidenti perché le voci si muovono l’una contro l’altra.",
            "Eine Oktave, der ein Einklang oder eine Doppeloktave folgt, sind noch immer zwei Oktaven, nur weniger deutlich, weil die Stimmen gegeneinander gehen.",
            "Une octave suivie d’un unisson ou d’une quinzième fait encore deux octaves, moins nettes seulement parce que les voix vont l’une contre l’autre.",
            "Una octava seguida de un unísono o de una decimoquinta siguen siendo dos octavas, solo menos claras porque las voces van una contra otra.",
        ),
        Rule::ContraryFifths => phrase!(
            "A fifth followed by a twelfth is still two fifths, only less plain because the voices move against each other.",
            "Una quinta seguita da una dodicesima è pur sempre due quinte, solo meno evidenti perché le voci si muovono l’una contro l’altra.",
            "Eine Quinte, der eine Duodezime folgt, sind noch immer zwei Quinten, nur weniger deutlich, weil die Stimmen gegeneinander gehen.",
            "Une quinte suivie d’une douzième fait encore deux quintes, moins nettes seulement parce que les voix vont l’une contre l’autre.",
            "Una quinta seguida de una duodécima siguen siendo dos quintas, solo menos claras porque las voces van una contra otra.",
        ),
        Rule::DiminishedToPerfect => phrase!(
            "A diminished fifth wants to close in to a third; going the same way into a perfect fifth it is left hanging. The reverse, perfect to diminished, is good.",
            "Una quinta diminuita vuole chiudersi in una terza; andando nello stesso senso a una quinta giusta resta sospesa. L’inverso, da giusta a diminuita, va bene.",
            "Eine verminderte Quinte will sich zur Terz schließen; geht sie in gleicher Richtung in eine reine Quinte, bleibt sie in der Luft. Umgekehrt, von rein zu vermindert, ist es gut.",
            "Une quinte diminuée veut se fermer en tierce ; allant dans le même sens à une quinte juste, elle reste en suspens. L’inverse, de juste à diminuée, est bon.",
            "Una quinta disminuida quiere cerrarse en una tercera; yendo en el mismo sentido a una quinta justa queda en el aire. Lo inverso, de justa a disminuida, es bueno.",
        ),
        Rule::HiddenOctaves => phrase!(
            "When both voices go the same way into an octave and the soprano leaps, the ear fills in the octaves between.",
            "Quando le due voci vanno nello stesso senso a un’ottava e il soprano salta, l’orecchio riempie le ottave intermedie.",
            "Gehen beide Stimmen in derselben Richtung in eine Oktave und springt der Sopran, so füllt das Ohr die Oktaven dazwischen aus.",
            "Quand les deux voix vont dans le même sens à une octave et que le soprano saute, l’oreille remplit les octaves intermédiaires.",
            "Cuando ambas voces van en el mismo sentido a una octava y el soprano salta, el oído rellena las octavas intermedias.",
        ),
        Rule::HiddenFifths => phrase!(
            "When both voices go the same way into a fifth and the soprano leaps, the ear fills in the fifths between.",
            "Quando le due voci vanno nello stesso senso a una quinta e il soprano salta, l’orecchio riempie le quinte intermedie.",
            "Gehen beide Stimmen in derselben Richtung in eine Quinte und springt der Sopran, so füllt das Ohr die Quinten dazwischen aus.",
            "Quand les deux voix vont dans le même sens à une quinte et que le soprano saute, l’oreille remplit les quintes intermédiaires.",
            "Cuando ambas voces van en el mismo sentido a una quinta y el soprano salta, el oído rellena las quintas intermedias.",
        ),
        Rule::MaskedConsecutives => phrase!(
            "A change over a held bass note is only an ornament: the ear joins the fifths or octaves on either side of it.",
            "Un cambio sopra una nota tenuta del basso è solo un ornamento: l’orecchio congiunge le quinte o le ottave ai suoi lati.",
            "Ein Wechsel über liegendem Bass ist nur eine Verzierung: Das Ohr verbindet die Quinten oder Oktaven zu ihren beiden Seiten.",
            "Un changement sur une note de basse tenue n’est qu’un ornement : l’oreille relie les quintes ou octaves de part et d’autre.",
            "Un cambio sobre una nota tenida del bajo es solo un adorno: el oído une las quintas u octavas a ambos lados.",
        ),
        Rule::UnrisenLeadingNote => phrase!(
            "A leading note, an augmented fourth or sixth leans upward; on top, where all hear it, it must rise a step. It may wait as a note of the next chord, or sink a semitone in a chain of dominants.",
            "La sensibile, la quarta o la sesta aumentata tendono in su; in alto, dove tutti le sentono, devono salire di grado. Possono attendere come note dell’accordo seguente, o calare di un semitono in una catena di dominanti.",
            "Leitton, übermäßige Quarte und Sexte streben aufwärts; oben, wo alle sie hören, müssen sie einen Schritt steigen. Sie dürfen als Ton des nächsten Akkords warten oder in einer Dominantkette einen Halbton sinken.",
            "La sensible, la quarte ou la sixte augmentée tendent vers le haut ; au-dessus, où tous les entendent, elles doivent monter d’un degré. Elles peuvent attendre comme notes de l’accord suivant, ou baisser d’un demi-ton dans une chaîne de dominantes.",
            "La sensible, la cuarta o la sexta aumentada tienden hacia arriba; en lo alto, donde todos las oyen, deben subir un grado. Pueden esperar como notas del acorde siguiente, o bajar un semitono en una cadena de dominantes.",
        ),
        Rule::UnfallenSeventh => phrase!(
            "A seventh or a diminished fifth leans downward; on top it must fall a step. It may wait as a note of the next chord, or rise where the bass takes the note it would fall to.",
            "La settima o la quinta diminuita tendono in giù; in alto devono scendere di grado. Possono attendere come note dell’accordo seguente, o salire dove il basso prende la nota a cui scenderebbero.",
            "Septime und verminderte Quinte streben abwärts; oben müssen sie einen Schritt fallen. Sie dürfen als Ton des nächsten Akkords warten oder steigen, wo der Bass den Ton nimmt, in den sie fielen.",
            "La septième ou la quinte diminuée tendent vers le bas ; au-dessus, elles doivent descendre d’un degré. Elles peuvent attendre comme notes de l’accord suivant, ou monter là où la basse prend la note où elles descendraient.",
            "La séptima o la quinta disminuida tienden hacia abajo; en lo alto deben bajar un grado. Pueden esperar como notas del acorde siguiente, o subir donde el bajo toma la nota a la que bajarían.",
        ),
        Rule::UnpreparedSuspension => phrase!(
            "A suspension is a note held over from the chord before; struck afresh it is merely harsh.",
            "Un ritardo è una nota tenuta dall’accordo precedente; ripercossa è soltanto aspra.",
            "Ein Vorhalt ist ein Ton, der aus dem vorigen Akkord liegen bleibt; frisch angeschlagen ist er bloß hart.",
            "Un retard est une note tenue depuis l’accord précédent ; frappée à neuf, elle n’est que dure.",
            "Un retardo es una nota mantenida desde el acorde anterior; tocada de nuevo es solo áspera.",
        ),
        Rule::UnresolvedSuspension => phrase!(
            "A suspension is a debt: it is paid by a step down.",
            "Un ritardo è un debito: si paga scendendo di grado.",
            "Ein Vorhalt ist eine Schuld: Er wird mit einem Schritt abwärts bezahlt.",
            "Un retard est une dette : elle se paie d’un degré descendant.",
            "Un retardo es una deuda: se paga bajando un grado.",
        ),
        Rule::BassDuty => phrase!(
            "A leading note or a dissonance in the bass wants its own step as much as one on top. A leading note may also walk on down the scale, or leap as a root in a sequence of fifths.",
            "Una sensibile o una dissonanza al basso vuole il suo grado quanto in alto. Una sensibile può anche proseguire giù per la scala, o saltare come fondamentale in una progressione di quinte.",
            "Leitton oder Dissonanz im Bass will ihren Schritt ebenso wie oben. Ein Leitton darf auch die Leiter weiter hinabgehen oder als Grundton in einer Quintfallsequenz springen.",
            "Une sensible ou une dissonance à la basse veut son degré autant qu’au-dessus. Une sensible peut aussi descendre la gamme, ou sauter comme fondamentale dans une marche de quintes.",
            "Una sensible o una disonancia en el bajo quiere su grado tanto como en lo alto. Una sensible también puede seguir bajando por la escala, o saltar como fundamental en una progresión de quintas.",
        ),
        Rule::DoubledDuty => phrase!(
            "A note that has one way to go, sung by both outer voices, makes octaves of them or must break its word.",
            "Una nota con una sola via, cantata da entrambe le voci estreme, ne fa delle ottave o deve mancare di parola.",
            "Ein Ton mit nur einem Weg, von beiden Außenstimmen gesungen, macht Oktaven aus ihnen oder muss sein Wort brechen.",
            "Une note qui n’a qu’un chemin, chantée par les deux voix extrêmes, en fait des octaves ou doit manquer à sa parole.",
            "Una nota que solo tiene un camino, cantada por ambas voces extremas, hace octavas o debe faltar a su palabra.",
        ),
        Rule::AugmentedStep => phrase!(
            "An augmented second or another augmented step is hard to sing and breaks the line in two.",
            "Una seconda aumentata, o un altro grado aumentato, è difficile da cantare e spezza la linea in due.",
            "Eine übermäßige Sekunde oder ein anderer übermäßiger Schritt singt sich schwer und bricht die Linie entzwei.",
            "Une seconde augmentée, ou un autre degré augmenté, est difficile à chanter et casse la ligne en deux.",
            "Una segunda aumentada u otro paso aumentado es difícil de cantar y parte la línea en dos.",
        ),
        Rule::TritoneLeap => phrase!(
            "A leap of three whole tones is hard to hear and to sing.",
            "Un salto di tre toni è difficile da sentire e da cantare.",
            "Ein Sprung von drei Ganztönen ist schwer zu hören und zu singen.",
            "Un saut de trois tons est difficile à entendre et à chanter.",
            "Un salto de tres tonos es difícil de oír y de cantar.",
        ),
        Rule::DiminishedLeap => phrase!(
            "A diminished leap is expressive as long as it turns back at once by a step; otherwise it is left in the air.",
            "Un salto diminuito è espressivo purché torni subito indietro di grado; altrimenti resta in aria.",
            "Ein verminderter Sprung ist ausdrucksvoll, solange er sogleich schrittweise umkehrt; sonst bleibt er in der Luft.",
            "Un saut diminué est expressif s’il revient aussitôt d’un degré ; sinon il reste en l’air.",
            "Un salto disminuido es expresivo si vuelve enseguida un grado; si no, queda en el aire.",
        ),
        Rule::SeventhLeap => phrase!(
            "A leap of a seventh is a step in the wrong octave.",
            "Un salto di settima è un grado nell’ottava sbagliata.",
            "Ein Septimensprung ist ein Schritt in der falschen Oktave.",
            "Un saut de septième est un degré dans la mauvaise octave.",
            "Un salto de séptima es un grado en la octava equivocada.",
        ),
        Rule::WideLeap => phrase!(
            "A leap past the octave makes two voices out of one.",
            "Un salto oltre l’ottava fa di una voce due.",
            "Ein Sprung über die Oktave macht aus einer Stimme zwei.",
            "Un saut de plus d’une octave fait d’une voix deux.",
            "Un salto de más de una octava hace de una voz dos.",
        ),
        Rule::LeapsTogether => phrase!(
            "When both outer voices leap a fifth or more the same way, the whole chord lurches. An octave leap of the bass does not count.",
            "Quando le due voci estreme saltano di una quinta o più nello stesso senso, tutto l’accordo sobbalza. Un salto d’ottava del basso non conta.",
            "Springen beide Außenstimmen eine Quinte oder mehr in dieselbe Richtung, so ruckt der ganze Akkord. Ein Oktavsprung des Basses zählt nicht.",
            "Quand les deux voix extrêmes sautent d’une quinte ou plus dans le même sens, tout l’accord bascule. Un saut d’octave de la basse ne compte pas.",
            "Cuando ambas voces extremas saltan una quinta o más en el mismo sentido, todo el acorde da un bandazo. Un salto de octava del bajo no cuenta.",
        ),
        Rule::VoiceCrossing => phrase!(
            "The soprano is the upper voice and the bass the lower.",
            "Il soprano è la voce superiore e il basso l’inferiore.",
            "Der Sopran ist die obere Stimme und der Bass die untere.",
            "Le soprano est la voix supérieure et la basse l’inférieure.",
            "El soprano es la voz superior y el bajo la inferior.",
        ),
        Rule::VoiceOverlap => phrase!(
            "When a voice goes past where the other has just been, the ear takes one for the other.",
            "Quando una voce oltrepassa il punto dove l’altra è appena stata, l’orecchio scambia l’una per l’altra.",
            "Geht eine Stimme über die Stelle hinaus, an der die andere eben noch war, so hält das Ohr die eine für die andere.",
            "Quand une voix dépasse l’endroit où l’autre vient d’être, l’oreille prend l’une pour l’autre.",
            "Cuando una voz pasa de donde la otra acaba de estar, el oído toma una por otra.",
        ),
        Rule::CrossRelation => phrase!(
            "A note and its chromatic neighbour in different voices contradict each other; in one voice they make a line.",
            "Una nota e la sua alterazione cromatica in voci diverse si contraddicono; in una sola voce fanno una linea.",
            "Ein Ton und seine chromatische Veränderung in verschiedenen Stimmen widersprechen sich; in einer Stimme bilden sie eine Linie.",
            "Une note et son altération chromatique dans des voix différentes se contredisent ; dans une même voix, elles font une ligne.",
            "Una nota y su alteración cromática en voces distintas se contradicen; en una sola voz forman una línea.",
        ),
        Rule::OutsideCompass => phrase!(
            "The note lies outside the compass you gave the soprano.",
            "La nota è fuori dall’ambito che hai dato al soprano.",
            "Der Ton liegt außerhalb des Umfangs, den Sie dem Sopran gegeben haben.",
            "La note est hors de l’étendue que vous avez donnée au soprano.",
            "La nota está fuera del ámbito que diste al soprano.",
        ),
        Rule::ForeignNote => phrase!(
            "You fixed a note that the chord does not contain. It stays, as a dissonance of your own.",
            "Hai fissato una nota che l’accordo non contiene. Resta, come dissonanza tua.",
            "Sie haben einen Ton festgelegt, den der Akkord nicht enthält. Er bleibt, als Ihre eigene Dissonanz.",
            "Vous avez fixé une note que l’accord ne contient pas. Elle reste, comme dissonance à vous.",
            "Fijaste una nota que el acorde no contiene. Se queda, como disonancia tuya.",
        ),
        Rule::SameNote => phrase!(
            "A soprano that stays on one note over five or more moving bass notes is no line.",
            "Un soprano che resta su una nota sopra cinque o più note del basso in moto non è una linea.",
            "Ein Sopran, der über fünf oder mehr gehenden Basstönen auf einem Ton bleibt, ist keine Linie.",
            "Un soprano qui reste sur une note au-dessus de cinq notes de basse mobiles ou plus n’est pas une ligne.",
            "Un soprano que se queda en una nota sobre cinco o más notas del bajo en movimiento no es una línea.",
        ),
        Rule::Circling => phrase!(
            "A soprano that goes to and fro between two notes over five chords or more goes nowhere.",
            "Un soprano che va e viene tra due note per cinque accordi o più non va da nessuna parte.",
            "Ein Sopran, der über fünf Akkorde oder mehr zwischen zwei Tönen hin und her geht, kommt nirgends an.",
            "Un soprano qui va et vient entre deux notes pendant cinq accords ou plus ne va nulle part.",
            "Un soprano que va y viene entre dos notas durante cinco acordes o más no va a ninguna parte.",
        ),
    })
}

/// Where the rule comes from.
pub fn rule_source(rule: Rule, lang: Lang) -> &'static str {
    let book = match rule {
        Rule::ConsecutiveOctaves | Rule::ConsecutiveFifths => phrase!(
            "Fux, Gradus ad Parnassum (1725), first rule of motion; for full playing the Roman manuscript E.25, ch. 26.",
            "Fux, Gradus ad Parnassum (1725), prima regola del moto; per il suonare pieno il manoscritto romano E.25, cap. 26.",
            "Fux, Gradus ad Parnassum (1725), erste Regel der Bewegung; für vollgriffiges Spiel die römische Handschrift E.25, Kap. 26.",
            "Fux, Gradus ad Parnassum (1725), première règle du mouvement ; pour le jeu plein, le manuscrit romain E.25, chap. 26.",
            "Fux, Gradus ad Parnassum (1725), primera regla del movimiento; para tocar lleno, el manuscrito romano E.25, cap. 26.",
        ),
        Rule::HiddenOctaves | Rule::HiddenFifths => phrase!(
            "Fux, Gradus ad Parnassum (1725), third rule of motion; excused for a stepwise soprano by common practice.",
            "Fux, Gradus ad Parnassum (1725), terza regola del moto; scusate per un soprano di grado dalla pratica comune.",
            "Fux, Gradus ad Parnassum (1725), dritte Regel der Bewegung; bei schrittweisem Sopran nach allgemeiner Praxis entschuldigt.",
            "Fux, Gradus ad Parnassum (1725), troisième règle du mouvement ; excusées par l’usage commun si le soprano va par degré.",
            "Fux, Gradus ad Parnassum (1725), tercera regla del movimiento; disculpadas por la práctica común si el soprano va por grado.",
        ),
        Rule::ContraryOctaves
        | Rule::ContraryFifths
        | Rule::MaskedConsecutives
        | Rule::DoubledDuty
        | Rule::VoiceCrossing
        | Rule::VoiceOverlap
        | Rule::CrossRelation
        | Rule::SameNote
        | Rule::Circling => phrase!(
            "Common practice, no single source.",
            "Pratica comune, senza una fonte sola.",
            "Allgemeine Praxis, ohne einzelne Quelle.",
            "Usage commun, sans source unique.",
            "Práctica común, sin una fuente única.",
        ),
        Rule::DiminishedToPerfect => {
            return "C.P.E. Bach, Versuch II (1762); Heinichen, Der General-Bass (1728).";
        }
        Rule::UnrisenLeadingNote | Rule::UnfallenSeventh | Rule::BassDuty => {
            return "C.P.E. Bach, Versuch II (1762).";
        }
        Rule::UnpreparedSuspension | Rule::UnresolvedSuspension => {
            return "Fux, Gradus ad Parnassum (1725); Fenaroli, Regole musicali (1775).";
        }
        Rule::AugmentedStep | Rule::LeapsTogether => {
            return "Fux, Gradus ad Parnassum (1725); C.P.E. Bach, Versuch II (1762).";
        }
        Rule::TritoneLeap | Rule::SeventhLeap | Rule::WideLeap => {
            return "Fux, Gradus ad Parnassum (1725).";
        }
        Rule::DiminishedLeap => {
            return "Kirnberger, Die Kunst des reinen Satzes (1771); C.P.E. Bach, Versuch II (1762).";
        }
        Rule::OutsideCompass | Rule::ForeignNote => phrase!(
            "Your own wish.",
            "Un tuo desiderio.",
            "Ihr eigener Wunsch.",
            "Votre propre souhait.",
            "Tu propio deseo.",
        ),
    };
    lang.say(book)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{rule_advice, rule_name};

    #[test]
    fn names_have_no_full_stop_and_sentences_have_one() {
        for rule in Rule::ALL {
            let name = rule_name(rule, Lang::English);
            assert!(!name.ends_with('.') && name.starts_with(char::is_lowercase), "{name}");
            for text in [
                rule_explained(rule, Lang::English),
                rule_advice(rule, Lang::English),
                rule_source(rule, Lang::English),
            ] {
                assert!(text.ends_with('.') && text.starts_with(char::is_uppercase), "{text}");
            }
        }
    }

    #[test]
    fn names_are_told_apart() {
        for (i, rule) in Rule::ALL.into_iter().enumerate() {
            let others = &Rule::ALL[..i];
            assert!(
                others
                    .iter()
                    .all(|&o| rule_name(o, Lang::English) != rule_name(rule, Lang::English))
            );
        }
    }
}
