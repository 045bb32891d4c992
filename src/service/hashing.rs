//! Argon2 one password at a time, the megabytes that it takes given back to the system after each.
//!
//! Taken as any other memory they stay with the allocator, in the part of memory of whichever thread it was, and between what the many
//! threads of several databases take they are not found again: fifty sign-ins at eleven installers cost 900 MB.

use argon2::password_hash::phc::{Output, ParamsString, PasswordHash, Salt};
use argon2::password_hash::{self, CustomizedPasswordHasher, PasswordHasher};
use argon2::{Algorithm, Argon2, Block, Params, Version};
use std::sync::{Mutex, PoisonError};

/// Whose turn it is.
static TURN: Mutex<()> = Mutex::new(());
/// How much room is asked for, of which only what is used is taken: what has this size the C library always gets from the system by itself,
/// and gives back (33 MiB: more than `DEFAULT_MMAP_THRESHOLD_MAX` of glibc's malloc, which is 32 MiB with 64 bits, from memory).
const OWN_PAGES: usize = 33 * 1024 * 1024 / Block::SIZE;

/// Argon2id as [`Argon2`] does it, one password at a time.
pub(super) struct OneAtATime;

impl CustomizedPasswordHasher<PasswordHash> for OneAtATime {
    type Params = Params;

    fn hash_password_customized(
        &self,
        password: &[u8],
        salt: &[u8],
        algorithm: Option<&str>,
        version: Option<u32>,
        params: Params,
    ) -> password_hash::Result<PasswordHash> {
        let algorithm = algorithm.map(Algorithm::try_from).transpose()?.unwrap_or_default();
        let version = version.map(Version::try_from).transpose()?.unwrap_or_default();
        let salt = Salt::new(salt)?;
        let mut hash = [0; Output::MAX_LENGTH];
        let length = params.output_len().unwrap_or(Params::DEFAULT_OUTPUT_LEN);
        let hash = hash.get_mut(..length).ok_or(password_hash::Error::OutputSize)?;

        let turn = TURN.lock().unwrap_or_else(PoisonError::into_inner);
        let mut room = Vec::with_capacity(params.block_count().max(OWN_PAGES));
        room.resize(params.block_count(), Block::default());
        let hashed = Argon2::new(algorithm, version, params.clone()).hash_password_into_with_memory(
            password,
            &salt,
            hash,
            &mut room[..],
        );
        drop(room);
        drop(turn);
        hashed?;
        Ok(PasswordHash {
            algorithm: algorithm.ident(),
            version: Some(version.into()),
            params: ParamsString::try_from(&params)?,
            salt: Some(salt),
            hash: Some(Output::new(hash)?),
        })
    }
}

impl PasswordHasher<PasswordHash> for OneAtATime {
    fn hash_password_with_salt(&self, password: &[u8], salt: &[u8]) -> password_hash::Result<PasswordHash> {
        self.hash_password_customized(password, salt, None, None, Params::default())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use argon2::password_hash::PasswordVerifier;

    #[test]
    fn what_either_hashes_the_other_verifies() {
        let (one, other) = (b"an invented password", b"another invented password");
        let kept: PasswordHash = Argon2::default().hash_password(one).unwrap();
        assert!(OneAtATime.verify_password(one, &kept).is_ok() && OneAtATime.verify_password(other, &kept).is_err());
        let made: PasswordHash = OneAtATime.hash_password(one).unwrap();
        assert!(Argon2::default().verify_password(one, &made).is_ok());
        let salt = b"an invented salt";
        let again =
            |hasher: &dyn PasswordHasher<PasswordHash>| hasher.hash_password_with_salt(one, salt).unwrap().to_string();
        assert_eq!(again(&OneAtATime), again(&Argon2::default()));
        // Another program's hash with less room to it, and then one of ours again.
        let small = Argon2::new(Algorithm::Argon2id, Version::V0x13, Params::new(64, 1, 1, None).unwrap());
        let kept: PasswordHash = small.hash_password(one).unwrap();
        assert!(OneAtATime.verify_password(one, &kept).is_ok() && OneAtATime.verify_password(one, &made).is_ok());
    }
}
