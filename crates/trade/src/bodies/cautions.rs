//! What can mislead whoever tells a body from a measure.

use super::Fits;

/// The cautions that go with a finding, the weightiest first.
pub fn cautions(fits: &Fits) -> Vec<String> {
    let mut cautions = Vec::new();
    let mut add = |text: &str| cautions.push(text.to_owned());
    if fits.solid.iter().filter(|f| f.fits).count() > 1 {
        add(
            "More than one name fits, and the figure cannot tell them apart: founders cast the body of one name in different \
             sizes, and French and German shops had names of their own.",
        );
    }
    if !fits.leaded.is_empty() {
        add(
            "Leads between the lines make a small body measure as a large one. Measure the gap between the foot of a long \
             letter and the head of one below it (--gap): up to 1 mm usually means solid.",
        );
    }
    // *Studies in Bibliography* 43 (seen), tables of type measures.
    add(
        "Paper shrinks, generally by about 1 per cent and up to 2.5, more across the chain-lines than along them; ink squash \
         adds up to 1 mm. Measure several leaves, and give the median with the range.",
    );
    add(
        "The body is not the face: founders cast one face on a larger or a smaller body. And neither tells whose type it was, \
         for founders sold the same matrices and founts to many shops.",
    );
    cautions
}
