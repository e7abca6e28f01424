//! What plates of blocks there are, and what is drawn on them.

use super::*;
use crate::blocks::blocks_model;
use crate::blocks::tests::{pictures, record};
use chronology::Dated;
use sheet::decode::{DecodeRequest, decode_rgb};

fn plates(years: &[Dated]) -> Vec<Plate> {
    let record = record(&["011", "0?1", "001"], years, 0);
    let pictures = pictures(&record, (400, 320));
    let model = blocks_model(&record, &pictures, String::new()).unwrap();
    let mut out = Vec::new();
    of_blocks(&record, &pictures, &model, |plate| -> Result<(), CannotDraw> {
        out.push(plate);
        Ok(())
    })
    .unwrap();
    out
}

fn seen(plate: &Plate) -> Plane<[u8; 3]> {
    decode_rgb(&plate.png, &DecodeRequest::default()).unwrap().rgb
}

#[test]
fn every_plate_is_there_and_says_what_it_shows() {
    let years = [Dated::Exactly { year: 1600 }, Dated::Unknown, Dated::Exactly { year: 1640 }];
    let plates = plates(&years);
    let names: Vec<&str> = plates.iter().map(|p| p.name.as_str()).collect();
    assert_eq!(
        names,
        [
            "block-1.png",
            "block-1-order.png",
            "block-1-states.png",
            "block-1-years.png",
            "block-1-damage-01.png",
            "block-1-damage-02.png",
            "block-1-damage-03.png"
        ]
    );
    assert!(plates[0].shows.contains("1 break in a line; 2 nick in the frame"), "{}", plates[0].shows);
    assert!(plates[5].shows.contains("present in 3; absent in 1; unclear in 2"), "{}", plates[5].shows);
    assert!(plates[1].shows.contains("I: impression 1; II: "), "{}", plates[1].shows);
    for plate in &plates {
        let picture = seen(plate);
        assert!(picture.data().iter().any(|p| p[0] < 90), "{} is blank", plate.name);
    }
}

#[test]
fn the_best_impression_is_whole_between_its_margins() {
    let plates = plates(&[]);
    assert!(!plates.iter().any(|p| p.name.contains("years")), "no years were asked for");
    let picture = seen(&plates[0]);
    assert_eq!((picture.width(), picture.height()), (480, 320));
    // In the right margin nothing but white, the leaders and the rings.
    let margin = |y: usize| (441..480).filter(|&x| picture.at(x, y)[0] < 128).count();
    assert!((0..320).map(margin).sum::<usize>() < 900);
}

#[test]
fn a_sign_is_drawn_under_each_crop() {
    let picture = seen(&plates(&[])[1]);
    // Three impressions across, three damages down.
    assert_eq!(picture.width(), 70 + 3 * 130);
    let top = 46 + 96 + 34;
    assert_eq!(picture.height(), top + 3 * 160);
    // The first damage, in the first impression a ring, in the second a disc.
    let middle = |column: usize| picture.at(70 + column * 130 + 60, top + 120 + 15);
    assert!(middle(0)[0] > 200 && middle(1)[0] < 60, "{:?} {:?}", middle(0), middle(1));
}
