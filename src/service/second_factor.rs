//! The second factor: the codes of an app by RFC 6238 (TOTP), of six digits, a new one every thirty seconds.
//!
//! A code is taken once: the step that it belongs to is remembered. Wrong codes are counted beside the attempts to sign in, by the day, so
//! that whoever has the password can't try them all. They come only after the right password, so a stranger can't use this count up.

use super::accounts::{self, AccountError, AccountName};
use super::error::Refusal;
use super::events::{self, EventKind};
use super::{Service, store};
use jiff::{SignedDuration, Timestamp};
use totp_rs::{Algorithm, Builder, Secret, Totp, TotpError};

/// Bytes of a secret: RFC 4226, 4 (R6) recommends 160 bits.
const SECRET_BYTES: usize = 20;
/// Digits of a code: RFC 4226, 5.3 asks for six at least; what every app shows.
const DIGITS: u8 = 6;
/// How long a code lasts in seconds, and how many codes before and after the one of this moment are taken as well: RFC 6238, 5.2.
const STEP: u64 = 30;
const DRIFT: u16 = 1; // RFC 6238, 5.2
/// The most wrong codes of one account in a day, from all strangers together, and from each browser known for it: this program's choice.
/// Arithmetic: with three codes of a million right at a time that is one chance in 16,000 a day for somebody who has the password.
const WRONG_CODES: i64 = 20;
const A_DAY: SignedDuration = SignedDuration::from_hours(24);
/// How many characters stand together in a secret that is typed: common practice, no source.
const TOGETHER: usize = 4;

/// The secret of the codes of one account.
#[derive(Clone, Debug)]
pub struct SecondFactor(Totp);

impl SecondFactor {
    /// Draws a secret for an account.
    ///
    /// # Errors
    /// None for an [`AccountName`] and what is drawn here.
    pub fn draw(name: &AccountName) -> Result<Self, TotpError> {
        Self::of(Secret::new_stack(rand::random::<[u8; SECRET_BYTES]>()), name.as_str())
    }

    fn of(secret: Secret, name: &str) -> Result<Self, TotpError> {
        let builder = Builder::new().with_algorithm(Algorithm::SHA1).with_digits(DIGITS).with_step_duration(STEP);
        let builder = builder.with_skew(DRIFT).with_secret(secret).with_issuer(Some("presurvey"));
        builder.with_account_name(name).build().map(Self)
    }

    /// The one whose secret is kept.
    fn kept(secret: &str) -> Result<Self, Refusal> {
        let secret = Secret::try_from_base32(secret).map_err(|why| Refusal::ours(why.to_string()))?;
        Self::of(secret, "").map_err(|why| Refusal::ours(why.to_string()))
    }

    /// The address that an app takes: `otpauth://totp/…`.
    ///
    /// # Errors
    /// None for an [`AccountName`].
    pub fn address(&self) -> Result<String, TotpError> {
        self.0.to_url()
    }

    /// The secret in groups of four characters, for an app into which it is typed.
    #[must_use]
    pub fn groups(&self) -> String {
        let secret: Vec<char> = self.0.secret().to_base32().chars().collect();
        let groups = secret.chunks(TOGETHER).map(|group| group.iter().collect::<String>());
        groups.collect::<Vec<_>>().join(" ")
    }

    /// The step that a code belongs to: the one of this moment or one beside it. Spaces between digits don't matter.
    fn step(&self, code: &str, now: Timestamp) -> Option<i64> {
        let code: String = code.chars().filter(|sign| !sign.is_whitespace()).collect();
        let digits = code.len() == usize::from(DIGITS) && code.bytes().all(|byte| byte.is_ascii_digit());
        let step = digits.then(|| self.0.check(&code, u64::try_from(now.as_second()).ok()?)).flatten()?;
        i64::try_from(step).ok()
    }
}

/// Asks for a code of this secret at every sign-in from now on, once one of its codes proves that an app has it. Whoever is signed in to the
/// account is signed out: they came in without.
///
/// # Errors
/// [`AccountError`]: a wrong code, or no such account. What was asked for before stays so then.
pub async fn turn_on_second_factor(
    service: &Service,
    name: &AccountName,
    factor: &SecondFactor,
    code: &str,
) -> Result<(), AccountError> {
    let now = store::now();
    let step = factor.step(code, now).ok_or(AccountError::WrongCode)?;
    let mut transaction = service.database.write().await?;
    let number = accounts::number_of(&mut transaction, name).await?;
    sqlx::query("UPDATE accounts SET totp_secret = ?, totp_step = ? WHERE id = ?")
        .bind(factor.0.secret().to_base32())
        .bind(step)
        .bind(number)
        .execute(&mut *transaction)
        .await?;
    accounts::sign_out_everywhere(&mut transaction, number).await?;
    events::tell(&mut transaction, EventKind::SecondFactorOn, 1, now).await?;
    Ok(transaction.commit().await?)
}

/// Asks for no code any more, and signs the account out everywhere: for a telephone that is lost. Says whether a code was asked for before.
///
/// # Errors
/// [`AccountError`]: there is no such account.
pub async fn reset_account(service: &Service, name: &AccountName) -> Result<bool, AccountError> {
    let mut transaction = service.database.write().await?;
    let number = accounts::number_of(&mut transaction, name).await?;
    let off = sqlx::query("UPDATE accounts SET totp_secret = NULL WHERE id = ? AND totp_secret IS NOT NULL")
        .bind(number)
        .execute(&mut *transaction)
        .await?;
    let was_on = off.rows_affected() > 0;
    accounts::sign_out_everywhere(&mut transaction, number).await?;
    let now = store::now();
    if was_on {
        events::tell(&mut transaction, EventKind::SecondFactorOff, 1, now).await?;
    }
    events::tell(&mut transaction, EventKind::SignedOutEverywhere, 1, now).await?;
    transaction.commit().await?;
    Ok(was_on)
}

/// Takes a code of an account whose password was right. `who` is a browser known for the account, or all strangers together.
///
/// # Errors
/// [`Refusal::WrongCode`] for one that is wrong or was taken before, [`Refusal::TooManyAttempts`] after too many of them.
pub(super) async fn take(
    service: &Service,
    account: i64,
    secret: &str,
    code: &str,
    who: &str,
    now: Timestamp,
) -> Result<(), Refusal> {
    let step = SecondFactor::kept(secret)?.step(code, now);
    // All in one transaction, so that of two that send the same code one is refused.
    let mut transaction = service.database.write().await?;
    let (wrong, oldest): (i64, Option<String>) =
        sqlx::query_as("SELECT count(*), min(at) FROM wrong_codes WHERE account = ? AND who = ? AND at > ?")
            .bind(account)
            .bind(who)
            .bind((now - A_DAY).to_string())
            .fetch_one(&mut *transaction)
            .await?;
    if wrong >= WRONG_CODES {
        transaction.commit().await?;
        let oldest: Option<Timestamp> = oldest.and_then(|at| at.parse().ok());
        let wait = oldest.map_or(A_DAY, |oldest| oldest + A_DAY - now).as_secs();
        return Err(Refusal::TooManyAttempts { seconds: wait.max(1) }); // arithmetic: no wait of nothing
    }
    let mut taken = false;
    if let Some(step) = step {
        let newer =
            sqlx::query("UPDATE accounts SET totp_step = ?1 WHERE id = ?2 AND totp_secret = ?3 AND totp_step < ?1");
        let newer = newer.bind(step).bind(account).bind(secret).execute(&mut *transaction).await?;
        taken = newer.rows_affected() == 1;
    }
    if !taken {
        sqlx::query("INSERT INTO wrong_codes (account, who, at) VALUES (?, ?, ?)")
            .bind(account)
            .bind(who)
            .bind(now.to_string())
            .execute(&mut *transaction)
            .await?;
        events::tell(&mut transaction, EventKind::SecondFactorFailed, 1, now).await?;
    }
    transaction.commit().await?;
    if taken { Ok(()) } else { Err(Refusal::WrongCode) }
}

/// Forgets the wrong codes that count no more.
///
/// # Errors
/// The database's own.
pub(super) async fn forget(service: &Service, now: Timestamp) -> Result<(), sqlx::Error> {
    let delete = sqlx::query("DELETE FROM wrong_codes WHERE at <= ?").bind((now - A_DAY).to_string());
    service.database.execute(delete).await.map(drop)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn known() -> SecondFactor {
        SecondFactor::of(Secret::from(b"12345678901234567890".as_slice()), "sam").unwrap()
    }

    fn at(second: i64) -> Timestamp {
        Timestamp::from_second(second).unwrap()
    }

    #[test]
    fn codes_are_those_of_the_standard() {
        // RFC 6238, appendix B, the rows of SHA-1: of its eight digits the last six, as a code of six is the same number modulo 10^6.
        for (second, code) in [
            (59, "94287082"),
            (1_111_111_109, "07081804"),
            (1_111_111_111, "14050471"),
            (1_234_567_890, "89005924"),
            (2_000_000_000, "69279037"),
            (20_000_000_000, "65353130"),
        ] {
            assert_eq!(known().step(&code[2..], at(second)), Some(second / 30), "{second}");
        }
    }

    #[test]
    fn a_clock_may_be_off_by_one_code_and_no_more() {
        let code = "287082"; // of the seconds 30 to 59: RFC 6238, appendix B
        for (second, step) in [(0, Some(1)), (29, Some(1)), (30, Some(1)), (89, Some(1)), (90, None), (150, None)] {
            assert_eq!(known().step(code, at(second)), step, "{second}");
        }
        assert_eq!(known().step("287 082", at(59)), Some(1), "as an app shows it");
        for wrong in ["", "28708", "0287082", "287083", "+87082", "28708a", "２８７０８２", "94287082"] {
            assert_eq!(known().step(wrong, at(59)), None, "{wrong}");
        }
    }

    #[test]
    fn what_an_app_is_given_has_the_name_and_the_secret() {
        // The base32 of RFC 4648 of the secret in RFC 6238, appendix B.
        assert_eq!(known().groups(), "GEZD GNBV GY3T QOJQ GEZD GNBV GY3T QOJQ");
        let address = known().address().unwrap();
        assert!(address.starts_with("otpauth://totp/presurvey:sam?"), "{address}");
        assert!(address.contains("secret=GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ"), "{address}");
        let [one, other] = [(); 2].map(|()| SecondFactor::draw(&AccountName::owner()).unwrap().groups());
        assert_ne!(one, other);
        let kept = SecondFactor::kept(&one.replace(' ', "")).unwrap();
        assert_eq!(kept.groups(), one);
    }
}
