//! Reasons for which a verdict could be wrong, and what is asked of whoever acts on it.

use crate::block::BlockVerdict;
use crate::reading::Reading;
use crate::verdict::Verdict;

/// How a comparison came out, as far as cautions hang on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CameOut {
    /// The verdict.
    pub verdict: Verdict,
    /// Whether the two could be laid together.
    pub is_laid: bool,
    /// Whether the first has a scale, in which all lengths are told.
    pub has_scale: bool,
}

/// What is true of all evidence.
const EVIDENCE: &str = "This is evidence, not authentication or valuation. Follow the holding library's handling rules and \
     consult a conservator before you touch a sheet.";

/// What goes with comparisons that came out so, in sentences, each once.
pub fn of_comparisons(all: impl IntoIterator<Item = CameOut>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for say in all.into_iter().flat_map(of_one) {
        if !out.iter().any(|said| said == say) {
            out.push(say.to_owned());
        }
    }
    out.push(EVIDENCE.to_owned());
    out
}

fn of_one(CameOut { verdict, is_laid, has_scale }: CameOut) -> Vec<&'static str> {
    let mut say = Vec::new();
    match verdict {
        Verdict::SameSetting | Verdict::SameSettingWithDifferences => {
            say.push("Plates cast from type, and photographic facsimiles, lie together just as well.");
        }
        Verdict::Undetermined => {}
        _ => say.push("A machine finding is a proposal: look at the places before you quote it."),
    }
    if verdict == Verdict::SameSettingWithDifferences {
        say.push(
            "Differences may come from correction at press, from an accident, or from standing type printed again later; \
             which state came first is not said.",
        );
    }
    if verdict == Verdict::DifferentText || !is_laid {
        say.push(
            "A picture that is mirrored, or a negative, does not lie on its like: see that both read from left to right, \
             dark on light.",
        );
    }
    if is_laid && !has_scale {
        say.push("The scale of the photograph on which the other was laid is unknown: lengths are in pixels and x-heights.");
    }
    say
}

/// What goes with impressions of blocks whose pairs came out so, in sentences; `all_scaled` where all photographs have a scale.
pub fn of_blocks(verdicts: impl IntoIterator<Item = BlockVerdict>, all_scaled: bool) -> Vec<String> {
    let verdicts: Vec<BlockVerdict> = verdicts.into_iter().collect();
    let mut say = Vec::new();
    if verdicts.iter().any(|v| v.is_one_block()) {
        say.push(
            "Casts of a block in metal, and photographic facsimiles, lie together with it just as well as the wood itself.",
        );
        say.push(
            "Too little ink can feign a break and too much can fill one. A damage counts where the ink beside it is sound; look at \
             each before you quote it.",
        );
        say.push("An order by wear is that of the impressions of one block. It is no date, and a plug or a repair reverses it.");
    }
    if verdicts.iter().any(|v| matches!(v, BlockVerdict::ReCut | BlockVerdict::DifferentDesign)) {
        say.push("Paper and wood shrink, and a close copy wanders little: a finding of two blocks is a proposal, too.");
    }
    if !all_scaled {
        say.push("Of some photographs the scale is unknown: what rests on them is told in pixels, not in millimetres.");
    }
    say.push(EVIDENCE);
    say.into_iter().map(str::to_owned).collect()
}

/// What goes with what was measured of a side, in sentences; `has_scale` where its photograph has a scale.
pub fn of_measures(has_scale: bool) -> Vec<String> {
    let mut say = vec![
        "A body is a band of sizes, not one: founders differed, and paper has shrunk by up to 2.5 percent. Where two names fit, \
                        both are told.",
    ];
    if has_scale {
        say.push(
            "Every length rests on the scale of the photograph: a ruler beside the sheet, or a measure taken on the sheet, checks it.",
        );
    } else {
        say.push("The scale of the photograph is unknown: lengths are in pixels, and no body of type can be named.");
    }
    say.push(EVIDENCE);
    say.into_iter().map(str::to_owned).collect()
}

/// What a photograph by itself gives cause for, in sentences that call it `whose`, as "the first photograph".
pub fn of_photograph(reading: &Reading, whose: &str) -> Vec<String> {
    let mut say = Vec::new();
    let x_height_px = reading.x_height_px();
    if let Some(x_height) = x_height_px.filter(|_| !reading.letters_are_legible()) {
        say.push(format!(
            "In {whose} the letters are {x_height:.0} pixels high: too small to tell one sort from another, so that \
             differences of single sorts are doubtful at best. Ask the library for a larger picture."
        ));
    }
    if let Some(scale) = reading.scale.as_ref().filter(|_| reading.scale_is_belied()) {
        let so = x_height_px.map_or_else(
            || "the whole photograph would have a size that none has".to_owned(),
            |x| {
                let mm = x / scale.ppi.px_per_mm();
                format!("its type would have an x-height of {mm:.2} mm, which no text has")
            },
        );
        say.push(format!(
            "The scale of {whose}, {:.0} ppi, can hardly be true: {so}. Do not rely on its millimetres.",
            scale.ppi.0
        ));
    }
    say
}

/// All that goes with one comparison; `unlike` tells why its weight rests on pairs unlike it.
pub(crate) fn of_pair(
    verdict: Verdict,
    is_laid: bool,
    [a, b]: [&Reading; 2],
    unlike: Option<&str>,
) -> Vec<String> {
    let mut general = of_comparisons([CameOut { verdict, is_laid, has_scale: a.scale.is_some() }]);
    let of_all_evidence = general.pop();
    let unlike = unlike.map(|why| {
        format!(
            "The weight was calibrated on pairs unlike this one ({why}): it may be too large or too small."
        )
    });
    let of_photographs = [(a, "the first photograph"), (b, "the second photograph")]
        .map(|(reading, whose)| of_photograph(reading, whose));
    unlike
        .into_iter()
        .chain(general)
        .chain(of_photographs.into_iter().flatten())
        .chain(of_all_evidence)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn laid(verdict: Verdict, has_scale: bool) -> CameOut {
        CameOut { verdict, is_laid: true, has_scale }
    }

    #[test]
    fn each_caution_is_said_once_and_that_of_all_evidence_last() {
        let all = of_comparisons([laid(Verdict::SameSetting, true), laid(Verdict::SameSetting, true)]);
        assert_eq!(all.len(), 2, "{all:?}");
        assert!(all[0].starts_with("Plates cast from type"));
        assert_eq!(all[1], EVIDENCE);
    }

    #[test]
    fn an_unknown_scale_is_said_only_where_lengths_are_told() {
        let says_so = |came_out| of_comparisons([came_out]).iter().any(|s| s.contains("unknown"));
        assert!(says_so(laid(Verdict::SameSetting, false)));
        assert!(!says_so(laid(Verdict::SameSetting, true)));
        let apart = CameOut { verdict: Verdict::Undetermined, is_laid: false, has_scale: false };
        assert!(!says_so(apart));
    }
}
