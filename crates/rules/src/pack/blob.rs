//! Compiled packs as bytes, for the binary to carry.

use super::Packs;
use crc::{CRC_32_ISCSI, Crc};
use std::fmt;

/// Castagnoli's polynomial, as iSCSI uses it.
const CHECKSUM: Crc<u32> = Crc::<u32>::new(&CRC_32_ISCSI);
const FINGERPRINT: Crc<u64> = Crc::<u64>::new(&crc::CRC_64_XZ);

/// Why bytes are no packs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum BlobFault {
    /// The bytes are damaged, or are no compiled packs at all.
    Damaged(String),
    /// The packs were compiled with another vocabulary: their numbers of facts and part kinds mean something else.
    OtherVocabulary,
    /// The packs could not be written.
    NotWritten(String),
}

impl fmt::Display for BlobFault {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Damaged(detail) => {
                write!(formatter, "the compiled rule packs are damaged ({detail}): build them again")
            }
            Self::OtherVocabulary => {
                formatter.write_str("the rule packs were compiled with another vocabulary: build them again")
            }
            Self::NotWritten(detail) => {
                write!(formatter, "the rule packs could not be compiled ({detail})")
            }
        }
    }
}

impl std::error::Error for BlobFault {}

impl Packs {
    /// The packs as bytes that [`Packs::from_bytes`] reads: a checksum guards them.
    ///
    /// # Errors
    /// The rules hold something that the format cannot write; no rule that [`super::compile`] gives does.
    pub fn to_bytes(&self) -> Result<Vec<u8>, BlobFault> {
        postcard::to_stdvec_crc32(&(vocabulary_fingerprint(), &self.rules), CHECKSUM.digest())
            .map_err(|fault| BlobFault::NotWritten(fault.to_string()))
    }

    /// The packs of such bytes.
    ///
    /// # Errors
    /// The bytes are damaged, cut short, or were compiled with another vocabulary.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, BlobFault> {
        let damaged = |fault: postcard::Error| BlobFault::Damaged(fault.to_string());
        let (fingerprint, rules) = postcard::from_bytes_crc32(bytes, CHECKSUM.digest()).map_err(damaged)?;
        if u64::abs_diff(fingerprint, vocabulary_fingerprint()) != 0 {
            return Err(BlobFault::OtherVocabulary);
        }
        Ok(Self { rules })
    }
}

/// A number that changes with the part kinds, the facts and their order and choices.
fn vocabulary_fingerprint() -> u64 {
    let mut digest = FINGERPRINT.digest();
    for part in vocabulary::parts() {
        digest.update(part.word.as_bytes());
        digest.update(&[0]);
    }
    for fact in vocabulary::facts() {
        digest.update(fact.name.as_bytes());
        digest.update(&fact.part.0.to_le_bytes());
        for word in fact.choices() {
            digest.update(word.as_bytes());
            digest.update(&[0]);
        }
        digest.update(&[0]);
    }
    digest.finalize()
}
