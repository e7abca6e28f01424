//! The verdict on a setting, in the words of DESIGN §4.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the ink says of two impressions: one setting of type, or more than one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Every line that can be judged stands as it stood.
    SameSetting,
    /// One setting, with places that differ; which state came first is not said.
    SameSettingWithDifferences,
    /// Some lines stand and others were set again.
    PartlyReset,
    /// The same words, set again.
    DifferentSetting,
    /// Under three words in five are matched in their order; of a page of few words, which shares formulas with others,
    /// somewhat more are asked of one text.
    DifferentText,
    /// The photographs do not allow a judgement.
    Undetermined,
}

impl Verdict {
    /// All six.
    pub const ALL: [Self; 6] = [
        Self::SameSetting,
        Self::SameSettingWithDifferences,
        Self::PartlyReset,
        Self::DifferentSetting,
        Self::DifferentText,
        Self::Undetermined,
    ];

    /// Whether it is of one setting, with or without differences.
    pub fn is_one_setting(self) -> bool {
        matches!(self, Self::SameSetting | Self::SameSettingWithDifferences)
    }

    /// The word used in records.
    pub fn code(self) -> &'static str {
        match self {
            Self::SameSetting => "same-setting",
            Self::SameSettingWithDifferences => "same-setting-with-differences",
            Self::PartlyReset => "partly-reset",
            Self::DifferentSetting => "different-setting",
            Self::DifferentText => "different-text",
            Self::Undetermined => "undetermined",
        }
    }

    /// The same amid another sentence: without a capital.
    pub fn amid_a_sentence(self) -> String {
        let mut letters = self.sentence().chars();
        letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
    }

    /// A sentence for a reader.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::SameSetting => "Both impressions agree with one setting of type.",
            Self::SameSettingWithDifferences => {
                "Both impressions agree with one setting of type, with differences in places."
            }
            Self::PartlyReset => "Part of the type stands as it stood; part was set again.",
            Self::DifferentSetting => "The same text, set again: two settings of type.",
            Self::DifferentText => "The two carry different texts.",
            Self::Undetermined => "The photographs do not allow a verdict.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn records_carry_the_code() {
        for v in Verdict::ALL {
            assert_eq!(serde_json::to_string(&v).unwrap(), format!("\"{}\"", v.code()));
        }
    }
}
