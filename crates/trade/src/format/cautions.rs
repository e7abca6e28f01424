//! What can mislead whoever tells a format from a leaf.

use super::{Candidate, Evidence, Found};

/// The cautions that go with a finding, the weightiest first.
pub fn cautions(evidence: &Evidence, found: &Found) -> Vec<String> {
    let mut cautions = Vec::new();
    let mut add = |text: &str| cautions.push(text.to_owned());
    if evidence.watermark.is_none() && evidence.leaf.is_none() {
        add("Chain-lines alone never tell a format: half of all formats have them one way, half the other. \
             Measure the leaf and look for the watermark.");
    }
    if found.candidates.iter().any(Candidate::contradicts) {
        // Tanselle, "The Concept of Format", *Studies in Bibliography* 53 (seen), on quartos with vertical chain-lines.
        add(
            "Turned chain-lines: paper from double moulds or divided sheets has them the other way round, above all from \
             the late 17th century on. A leaf whose shape says one format and whose chain-lines another may be such paper.",
        );
    }
    if evidence.chain_lines.is_none() && evidence.watermark.is_none() {
        add(
            "A leaf's size alone fits several formats on several papers. Hold the leaf to the light: which way do the \
             chain-lines run, and where is the watermark? Wove paper (England from 1757, common after 1800) has no chain-lines.",
        );
    }
    add(
        "A half-sheet folded as an octavo has four leaves with the chain-lines and watermark of an octavo; two sheets of \
         quarto quired make a gathering of eight. The number of leaves in a gathering does not give the format.",
    );
    if evidence.leaf.is_some() && !evidence.is_uncut {
        add(
            "Trimming: each binding may have taken 3 to 12 mm from an edge, so a trimmed leaf gives only the least that its \
             sheet can have measured. A deckle edge shows where nothing was cut.",
        );
    }
    if found.candidates.first().is_some_and(|c| c.way.leaves() >= 16) {
        // Koninklijke Bibliotheek, handbook of the Short-Title Catalogue Netherlands, field 4062 (seen).
        add("In formats of 16° and smaller the watermark can hardly be made out.");
    }
    add(
        "The sizes of English papers of the 17th and 18th century are bands recalled from a handbook that was not opened; \
         the name of a paper is a suggestion, the format the finding.",
    );
    cautions
}
