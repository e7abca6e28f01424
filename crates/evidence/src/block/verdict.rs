//! The verdict on two impressions of a cut, in the words of DESIGN §4.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the ink says of two impressions of a cut: one block, or more than one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum BlockVerdict {
    /// Every line lies on its like, but for what was lost of the wood or took no ink.
    SameBlock,
    /// One block, a part of which was cut anew, plugged, sawn off, or is another block.
    SameBlockAltered,
    /// The same design, cut again: its lines wander against each other.
    ReCut,
    /// Another design, whatever its subject.
    DifferentDesign,
    /// The photographs do not allow a judgement.
    Undetermined,
}

impl BlockVerdict {
    /// All five.
    pub const ALL: [Self; 5] =
        [Self::SameBlock, Self::SameBlockAltered, Self::ReCut, Self::DifferentDesign, Self::Undetermined];

    /// Whether it is of one block, altered or not.
    pub fn is_one_block(self) -> bool {
        matches!(self, Self::SameBlock | Self::SameBlockAltered)
    }

    /// The word used in records.
    pub fn code(self) -> &'static str {
        match self {
            Self::SameBlock => "same-block",
            Self::SameBlockAltered => "same-block-altered",
            Self::ReCut => "re-cut",
            Self::DifferentDesign => "different-design",
            Self::Undetermined => "undetermined",
        }
    }

    /// A sentence for a reader.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::SameBlock => "Both impressions agree with one block.",
            Self::SameBlockAltered => {
                "Both impressions agree with one block, of which a part is not the same."
            }
            Self::ReCut => "The same design, cut again: two blocks.",
            Self::DifferentDesign => "The two are different designs.",
            Self::Undetermined => "The photographs do not allow a verdict.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn records_carry_the_code() {
        for v in BlockVerdict::ALL {
            assert_eq!(serde_json::to_value(v).unwrap(), v.code());
        }
    }
}
