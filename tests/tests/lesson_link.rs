//! Links of lessons: everything comes back as it was, links once given out stay
//! readable, and nothing that a link can hold makes the program fail.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use tastata::files::{
    LinkError, Linked, encode, encode_commented, encode_hand_in, encode_set, open, pasted, qr_svg,
};
use tastata::frame::{Position, Rule};
use tastata::harmony::Cadence;
use tastata::lesson::{
    Answer, Ask, Comment, Commented, Exercise, Found, HandIn, Measure, MotionLimit, Naming, Part,
    Parts, Set, Speech, Telling, check, make, table,
};
use tastata::pitch::Tonality;
use tastata::sketch::Sketch;
use tastata::words::{NoteNames, Tongue};
use tastata_tests::lesson::{Draw, sketch, with_soprano};
use tastata_tests::wrapped::veiled;

#[test]
fn everything_comes_back_as_it_was() {
    let mut draw = Draw(3);
    for i in 0..300 {
        let set = draw.set();
        let link = encode_set(&set);
        assert_eq!(open(&link), Ok(Linked::Set(set)), "set {i}: {link}");
        let hand_in = draw.hand_in();
        let link = encode_hand_in(&hand_in);
        assert_eq!(open(&link), Ok(Linked::HandIn(hand_in)), "hand-in {i}: {link}");
        let commented = draw.commented();
        let link = encode_commented(&commented);
        assert_eq!(open(&link), Ok(Linked::Commented(commented)), "commented {i}: {link}");
        let sketch = draw.sketch();
        assert_eq!(open(&encode(&sketch)), Ok(Linked::Sketch(sketch)));
    }
}

#[test]
fn damaged_links_are_told_and_never_fail() {
    let mut draw = Draw(5);
    let (mut damaged, mut told) = (0, 0);
    for _ in 0..60 {
        let links = [
            encode_set(&draw.set()),
            encode_hand_in(&draw.hand_in()),
            encode_commented(&draw.commented()),
        ];
        for link in links {
            for _ in 0..8 {
                let mut bytes = link.clone().into_bytes();
                for _ in 0..=draw.below(3) {
                    let at = draw.below(bytes.len() as u64) as usize;
                    match draw.below(4) {
                        0 => bytes[at] = b'!' + draw.below(94) as u8,
                        1 => bytes.insert(at, b'A' + draw.below(26) as u8),
                        2 => drop(bytes.remove(at)),
                        _ => bytes.truncate(at),
                    }
                    bytes.push(b'.');
                }
                let Ok(text) = String::from_utf8(bytes) else { continue };
                // What only follows the end is no damage, and a link is where its
                // last hash mark is.
                if !text.starts_with(&link) && !text.ends_with(&link) {
                    damaged += 1;
                    told += usize::from(open(&text).is_err());
                }
            }
        }
    }
    assert!(told * 100 > damaged * 99, "{told} of {damaged} damaged links were told");
}

/// Whatever is inside, with a checksum that fits: the fields must hold out alone,
/// and what could be read can be checked and written again.
#[test]
fn a_checked_message_of_any_bytes_never_fails() {
    let mut draw = Draw(13);
    let mut read = [0; 3];
    for i in 0..6000 {
        let length = draw.below(64) as usize;
        let plain: Vec<u8> = (0..length)
            .map(|_| if draw.one_in(3) { draw.below(256) as u8 } else { draw.below(16) as u8 })
            .collect();
        let tag = ["x", "a", "c"][i % 3];
        match open(&veiled(tag, &plain)) {
            Ok(linked) => {
                read[i % 3] += 1;
                let again = match &linked {
                    Linked::Set(set) => encode_set(set),
                    Linked::HandIn(hand_in) => encode_hand_in(hand_in),
                    Linked::Commented(commented) => encode_commented(commented),
                    Linked::Sketch(_) => panic!("a sketch under {tag}"),
                };
                assert_eq!(
                    format!("{:?}", open(&again)),
                    format!("{:?}", Ok::<_, LinkError>(&linked))
                );
                if let Linked::HandIn(hand_in) = linked {
                    let link = encode_hand_in(&hand_in);
                    let rows = table(&[&link], &hand_in.set);
                    assert_eq!(rows.len(), 1);
                }
            }
            Err(error) => assert!(
                matches!(error, LinkError::Damaged | LinkError::Newer | LinkError::TooLong),
                "{error:?} for {plain:?}"
            ),
        }
    }
    assert!(read.iter().all(|&read| read > 20), "{read:?} were read");
}

/// A chord's number that could not be counted on from is damage.
#[test]
fn a_place_beyond_all_pieces_is_damage() {
    let naming = |chord| {
        let found = vec![Found { chord, rule: None }];
        let set = Set { exercises: vec![Exercise::default()], ..Set::default() };
        let answers = vec![Some(Answer { found, ..Answer::default() })];
        open(&encode_hand_in(&HandIn { set, answers, ..HandIn::default() })).map(drop)
    };
    assert_eq!(naming(1 << 30), Ok(()));
    assert_eq!(naming(usize::MAX), Err(LinkError::Damaged));
}

/// A small link that unpacks to much is refused, not unpacked.
#[test]
fn a_link_cannot_fill_the_memory() {
    // An exercise whose sketch has 1001 notes.
    let bass = "C3 ".repeat(1001);
    let long = |sketch: Sketch| {
        let exercise = Exercise { sketch, ..Exercise::default() };
        open(&encode_set(&Set {
            title: String::new(),
            exercises: vec![exercise],
            ..Set::default()
        }))
    };
    assert_eq!(long(sketch(&bass)), Err(LinkError::TooLong));
    assert!(long(sketch(&bass[3..])).is_ok());
    // Many answers that each repeat a large sketch.
    let given = with_soprano(sketch(&bass[3..]), &"E5 ".repeat(1000));
    let exercise = Exercise { sketch: given.clone(), ..Exercise::default() };
    let answer = Answer { keys: vec![given.clone(); 400], sketch: given, ..Answer::default() };
    let hand_in = HandIn {
        set: Set { title: String::new(), exercises: vec![exercise], ..Set::default() },
        answers: vec![Some(answer)],
        ..HandIn::default()
    };
    assert_eq!(open(&encode_hand_in(&hand_in)), Err(LinkError::TooLong));
    assert_eq!(open(&format!("x1{}", "A".repeat(100_001))), Err(LinkError::TooLong));
}

#[test]
fn each_error_is_told_apart() {
    let link = encode_set(&class_set());
    let check = |text: &str, error: LinkError| assert_eq!(open(text), Err(error), "{text}");
    check("", LinkError::Empty);
    check("about", LinkError::Foreign);
    check("x", LinkError::Foreign);
    check("xylophone", LinkError::Foreign);
    check("x2AAAA", LinkError::Newer);
    check("2AAAA", LinkError::Newer);
    check("c1", LinkError::CutShort);
    for end in 2..link.len() {
        check(&link[..end], LinkError::CutShort);
    }
    for at in 20..link.len() - 1 {
        let mut changed = link.clone();
        let other = if &link[at..=at] == "A" { "B" } else { "A" };
        changed.replace_range(at..=at, other);
        check(&changed, LinkError::Damaged);
    }
    // An ask that this program does not know.
    check(&veiled("x", &[5, 4, 3, 11, 1, 99]), LinkError::Newer);
    // A set under the letter of a hand-in is read as a hand-in or not at all.
    assert!(!matches!(open(&link.replacen('x', "a", 1)), Ok(Linked::Set(_))));
}

/// A sixteen-note exercise with its model inside.
fn sixteen() -> Exercise {
    let bass = "D minor: D3 C#3 D3 E3 F3 G3 A3 Bb3 A3 G3 F3 E3 D3 G2 A2 D2";
    make(&sketch(bass), vec![Ask::Figures(Measure::Accepted)])
}

fn class_set() -> Set {
    Set { title: "Week 3".to_string(), exercises: vec![sixteen()], ..Set::default() }
}

/// Each kind of exercise over sixteen notes, its model and a task of a sentence
/// inside, as it is made from a finished sketch.
#[test]
fn a_sixteen_note_exercise_of_every_kind_is_short() {
    let finished = sixteen().model.expect("a model").sketch;
    let reading = tastata::reading::read(&finished);
    let mut faulty = tastata::lesson::freeze(&finished, &reading, Parts::NONE.with(Part::Soprano));
    let pin = faulty.notes[7].soprano[0].as_mut().expect("a pin");
    pin.pitch = tastata_tests::outer::pitch("F5");
    let keys = ["D minor", "A minor", "E minor", "G"].map(|it| Tonality::parse(it).expect("a key"));
    let soprano = |motions| Ask::Soprano { position: Some(Position::Third), motions };
    let kinds = [
        (&finished, Ask::Figures(Measure::AsModel)),
        (&finished, soprano(MotionLimit::ContraryOrTenths)),
        (&finished, soprano(MotionLimit::Any)),
        (&faulty, Ask::FindFaults(Naming::Named)),
        (&finished, Ask::Handfuls { least: 2 }),
        (&finished, Ask::Roll { acciaccaturas: 2 }),
        (&finished, Ask::Keys(keys.to_vec())),
        (&finished, Ask::Finish(Cadence::Double)),
        (&finished, Ask::Free),
    ];
    let task = "Sing it first, then work slowly.".to_owned();
    let speech = Speech { tongue: Some(Tongue::French), notes: Some(NoteNames::German) };
    for (sketch, ask) in kinds {
        let exercise = Exercise { task: task.clone(), ..make(sketch, vec![ask.clone()]) };
        assert!(exercise.sketch.notes.len() >= 14);
        let set = Set { title: "Week 3".to_owned(), exercises: vec![exercise], speech };
        let link = encode_set(&set);
        assert_eq!(open(&link), Ok(Linked::Set(set)));
        println!("{ask:?}: {} characters", link.len());
        assert!(link.len() < 300, "{ask:?}: {} characters", link.len());
    }
    let all = make(&finished, vec![Ask::Figures(Measure::Accepted), soprano(MotionLimit::Any)]);
    let both = encode_set(&Set { exercises: vec![all], ..class_set() }).len();
    assert!(both < 200, "{both} characters");
}

/// A language costs next to nothing, and sets that ask for none have the link they had.
#[test]
fn a_set_asks_for_a_language() {
    let plain = encode_set(&golden_set());
    assert!(plain.len() <= SET.len(), "{} characters", plain.len());
    let speech = Speech { tongue: Some(Tongue::German), notes: None };
    let german = encode_set(&Set { speech, ..golden_set() });
    assert!(german.len() <= plain.len() + 4, "{} characters", german.len());
    let Ok(Linked::Set(set)) = open(&german) else { panic!("a set") };
    assert_eq!(set.speech, speech);
    assert_eq!(open(IN_GERMAN), Ok(Linked::Set(set)));
}

/// What a set holds stays out of sight of a text tool: a short title stands in the
/// bytes of a sketch's link and not in those of a set's.
#[test]
fn sets_are_veiled() {
    let title = "SECRET".to_string();
    let sketch = encode(&Sketch { title: title.clone(), ..Sketch::default() });
    let set = encode_set(&Set { title, exercises: Vec::new(), ..Set::default() });
    let shows = |text: &str| {
        let bytes = URL_SAFE_NO_PAD.decode(text).expect("base64");
        bytes.windows(6).any(|window| window == b"SECRET")
    };
    assert!(shows(&sketch[1..]));
    assert!(!shows(&set[2..]));
}

#[test]
fn pasted_links_are_found() {
    let a = encode_hand_in(&HandIn { student: "Ada".into(), set: class_set(), answers: vec![] });
    let b = encode_hand_in(&HandIn { student: "Bo".into(), set: class_set(), answers: vec![] });
    let s = encode(&sketch("C3 G2 C3"));
    let (head, tail) = b.split_at(40);
    let text = format!(
        "Dear teacher,\nhere is mine: <file:///home/ada/page.html#{a}>.\nBo:  {head}\r\n{tail}\n\
         page.html#{s} and a1 and x-rays"
    );
    let found = pasted(&text);
    assert_eq!(found.len(), 3, "{found:?}");
    assert_eq!(
        found.iter().map(|link| open(link)).collect::<Vec<_>>(),
        [open(&a), open(&b), open(&s)]
    );
}

/// Links once given out. They are never changed here: what follows must still
/// read them.
const SET: &str = "x1zgV8kB-nQLiCrY06jKMKnlc5dJuOnMjujdXuE5bK-spHDj-IZlk_U5THsjKwg-fjQuftZnv6NPsmY9\
    wsW8aoUu2MaL9-xd9qi1VAaRq4i41-dCOfCTy0SoOSA9tYnFyAsT69oUjF9-yVwGDUQmxu2wxfB58OOk\
    kp8qR0_hH35fxPubxTalHkiE1H9N_UkRO3_qdQ";
const HAND_IN: &str = "a1oAVfkB-nsuzHtODQAsyuNHxJxSzJMjGABRG6ZU20SVwFtjaRutXE_V14QPCOlbvy1PAYIksp2hdcT-\
    11CdLdS1i3PPfe8VukEXv1Lg2NgSRBizBVDDIsHrVVLyy9LkAEIvTbR3ngsu8gY3G7vcypLYqhZX4eLD\
    GDY0mnz1PAVnJH4Uk7ANoCmUem5L0R_f8468HgF9oowceZw0QIJUx0J7cigYGc44m3Fi2A5B5JiLU";
const COMMENTED: &str = "c1nAIkkB-EfKkppTk9GQk3P_KB7wwWG5iaaIK-JpJPId7J5dOmH0s4Oi6U5dDzM1w17kOau0UuPiMkwd\
    bCQDtKzexkJlh5lMTTvlAvHBGZ-0qj3kyZr1oFU7MLp1476UI6x15xjnopUX5MMx0wMORrXd3D_ml2bH\
    lZWys2ClTnD4m7rHHzol3ikBObEAWC0BVXaKiTfTUWC9660oHpTUEltUTZ4qcwAs9QgwLZo959MzVvTy\
    mxMVlz7Nwv10-HAgTq1-7wtdP5uaWIGfYjJcEHM7QfoFW8zQQi9K8x";

/// A set made on the page, with findings told in steps.
const IN_STEPS: &str = "x1kgAGkBlHrONpsAgUiIZPEL9h7pe8a7Biew-0GZU-X0U7yL96cN2XQ5pxAWGFsnMyz3k4MRV3v2iVsV\
    elR4AwN2-x7JUfBo79edcW8wLgE5vroJ1NBeTkKLrmJLgf88Pzx8Ou1Uqye9IYFwhePedS6ACyhp9dph\
    x21NtaurS5jExgzr2yo9gjEIIx3JWghVDxKA1HlDkvtRaX-9b-I8yfBjP9mKIKBHt0SRIcKVtIGXJdDw\
    zUZURQMeEw4P0-wlJf__bZ3yCHS8DYp6iNfI7rUfeAhiprsQ6kAZSiPCc14mc0NXYrO9NXwMY1TdPyDa\
    YFE13K2-xt2a7F";

/// The same set, asking for German.
const IN_GERMAN: &str = "x10gV6kB-nQLiCrY06jKMKnlc5dJuOnMjujdXuE5bK-spHDj-IZlk_U5THsjKwg-fjQuftZnv6NPsmY9\
    wsW8aoUu2MaL9-xd9qi1VAaRq4i41-dCOfCTy0SoOSA9tYnFyAsT69oUjF9-yVwGDUQmxu2wxfB58OOk\
    kp8qR0_hH35fxPubxTalHkiE1H9N_UkRQezzJvYOc";

fn golden_set() -> Set {
    let given = sketch("D minor: D3 C#3 D3 E3 F3 G3 A3 Bb3 A3 G3 F3 E3 D3 G2 A2 D2");
    let model = sketch(
        "D minor: D3:5/3 C#3:6/5 D3:5/3 E3:6+/4/3 F3:6 G3:6/5 A3:5/3+ Bb3:5/3 A3:5/3+ G3:6/4+/2 \
         F3:6 E3:6+/4/3 D3:5/3 G2:5/3 A2:4-3+ D2:5/3",
    );
    let faulty = with_soprano(sketch("C major: C3 D3 E3 F3 G3 C3"), "G4 A4 C5 A4 B4 C5");
    let figure = Exercise {
        task: "Figure every note.".to_string(),
        hints: vec!["Where does the bass go?".to_string(), "The octave rule.".to_string()],
        asks: vec![Ask::Figures(Measure::Accepted)],
        model: Some(tastata::lesson::Model { sketch: model, opens: Default::default() }),
        sketch: given,
        ..Exercise::default()
    };
    let find = Exercise {
        asks: vec![Ask::FindFaults(Default::default())],
        sketch: faulty,
        ..Exercise::default()
    };
    Set { title: "Week 3".to_string(), exercises: vec![figure, find], ..Set::default() }
}

fn golden_hand_in() -> HandIn {
    let set = golden_set();
    let mut first = Answer::start(&set.exercises[0]);
    first.sketch =
        sketch("D minor: D3:5/3 C#3:6 D3:5/3 E3:6 F3:6 G3 A3 Bb3 A3 G3 F3 E3 D3 G2 A2 D2");
    first.minutes = 12;
    let mut second = Answer::start(&set.exercises[1]);
    second.found.push(Found { chord: 1, rule: Some(Rule::ConsecutiveFifths) });
    HandIn { student: "Cosima".to_string(), set, answers: vec![Some(first), Some(second)] }
}

fn golden_commented() -> Commented {
    let comment = |exercise, chord, text: &str| Comment { exercise, chord, text: text.to_string() };
    Commented {
        teacher: "M.".to_string(),
        hand_in: golden_hand_in(),
        comments: vec![
            comment(0, Some(5), "Which note of the scale is this?"),
            comment(1, None, "Well found!"),
        ],
    }
}

#[test]
fn links_given_out_stay_readable() {
    assert_eq!(open(SET), Ok(Linked::Set(golden_set())));
    assert_eq!(open(HAND_IN), Ok(Linked::HandIn(golden_hand_in())));
    assert_eq!(open(COMMENTED), Ok(Linked::Commented(golden_commented())));
    let Ok(Linked::Set(set)) = open(IN_STEPS) else { panic!("a set") };
    assert_eq!(set.exercises.len(), 3);
    assert!(set.exercises.iter().all(|it| it.telling == Telling::InSteps));
    assert!(set.exercises.iter().all(|it| it.hints.len() == 1));
    assert_eq!(set.exercises[2].asks, [Ask::FindFaults(Default::default())]);
    let bass = "C major: C3 D3 E3 F3 G3 C3";
    assert_eq!(set.exercises[0].sketch.notes, sketch(bass).notes);
    // A bare exercise leaves out what was usual when links began.
    assert_eq!(open(&veiled("x", &[])), Ok(Linked::Set(Set::default())));
}

/// An independent reader finds in the picture what was put in.
#[test]
fn an_independent_reader_reads_the_code() {
    for text in [
        "x".to_string(),
        format!("https://example.org/tastata.html#{}", encode_set(&class_set())),
        encode_commented(&golden_commented()),
        "a".repeat(2953),
    ] {
        let svg = qr_svg(&text).expect("a code");
        assert_eq!(read_code(&svg), text);
    }
    assert!(qr_svg(&"a".repeat(2954)).is_err());
}

/// Draws the SVG's path by its own words and gives the picture to the reader.
fn read_code(svg: &str) -> String {
    const SCALE: usize = 4;
    let side: usize = attribute(svg, "viewBox=\"0 0 ")
        .split(' ')
        .next()
        .and_then(|n| n.parse().ok())
        .expect("a side");
    let path = svg.rsplit(" d=\"").next().and_then(|rest| rest.split('"').next()).expect("a path");
    let mut dark = vec![false; side * side];
    for part in path.split('M').skip(1) {
        let numbers: Vec<usize> = part
            .split(|c: char| !c.is_ascii_digit())
            .filter_map(|number| number.parse().ok())
            .collect();
        let (x, y, run) = (numbers[0], numbers[1], numbers[2]);
        dark[y * side + x..y * side + x + run].fill(true);
    }
    let pixels = side * SCALE;
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(pixels, pixels, |x, y| {
        if dark[y / SCALE * side + x / SCALE] { 0 } else { 255 }
    });
    let grids = image.detect_grids();
    assert_eq!(grids.len(), 1, "one code in the picture");
    grids[0].decode().expect("a code that can be read").1
}

fn attribute<'a>(svg: &'a str, start: &str) -> &'a str {
    let at = svg.find(start).expect("the attribute") + start.len();
    svg[at..].split('"').next().expect("its end")
}

/// The report of what a link brought is that of what was sent.
#[test]
fn a_check_is_the_same_after_the_journey() {
    let hand_in = golden_hand_in();
    let Ok(Linked::HandIn(arrived)) = open(&encode_hand_in(&hand_in)) else { panic!("a hand-in") };
    for (i, exercise) in hand_in.set.exercises.iter().enumerate() {
        let report = |it: &HandIn| check(exercise, it.answers[i].as_ref().expect("an answer"));
        assert_eq!(report(&hand_in), report(&arrived));
    }
}
