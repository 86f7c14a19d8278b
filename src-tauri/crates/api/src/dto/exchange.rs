//! Passing work on as a file, and taking it in.

use bundle::{Passphrase, SecretString};
use chrono::{DateTime, NaiveDate, Utc};
use model::Id;
use schemars::JsonSchema;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};
use serde_json::Value;

/// Begin to carry a file in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FileBegin {
    /// Its name, for showing.
    pub name: String,
}

/// Carry in one piece of a file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FileAdd {
    /// The file.
    pub file: u32,
    /// The piece, RFC 4648 with padding; at most 4 MiB of bytes.
    pub base64: String,
}

/// Take a file from a path of this device.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FileOpen {
    /// Its path.
    pub path: String,
}

/// A file held for a while.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct FileHeld {
    /// Names it until it is dropped, or a fifth one comes.
    pub file: u32,
    /// Its length so far.
    pub bytes: u64,
}

/// Ask for one piece of a file that was made here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FileRead {
    /// The file.
    pub file: u32,
    /// Where the piece begins.
    pub from: u64,
}

/// One piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct FilePiece {
    /// Its bytes, RFC 4648 with padding; empty at the end.
    pub base64: String,
    /// Length of the whole file.
    pub bytes: u64,
}

/// Write a file that was made here to a path of this device.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FileSave {
    /// The file.
    pub file: u32,
    /// Its path; the name must end as the file was made: `.vvb`, `.html` for a report, `.csv` for
    /// a table.
    pub path: String,
}

/// Name a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FileName {
    /// The file.
    pub file: u32,
}

/// Open a file that is sealed with a passphrase.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FileUnseal {
    /// The file. It stays under its handle and holds what was sealed from then on.
    pub file: u32,
    /// The passphrase.
    #[schemars(with = "String")]
    pub passphrase: TypedPassphrase,
}

/// A passphrase as it was typed. It is wiped from memory when it goes, shows itself to nobody, and
/// is never sent back.
#[derive(Debug, Clone)]
pub struct TypedPassphrase(SecretString);

impl TypedPassphrase {
    /// The passphrase that is meant, however this keyboard writes it.
    #[must_use]
    pub fn meant(&self) -> Passphrase {
        Passphrase::new(&self.0)
    }
}

impl<'de> Deserialize<'de> for TypedPassphrase {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        // Whatever else it is must not be quoted in the error, as it would be by default.
        match Value::deserialize(from)? {
            Value::String(typed) => Ok(Self(typed.into())),
            _ => Err(D::Error::custom("a passphrase is a text")),
        }
    }
}

/// Make a bundle.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BundleMake {
    /// These jobs with everything that they refer to; none: the whole shop.
    #[serde(default)]
    pub jobs: Option<Vec<Id>>,
    /// These units with their profiles and without the jobs that were done on them.
    #[serde(default)]
    pub units: Option<Vec<Id>>,
    /// Only what this device isn't known to have: the fingerprint of its key, as a bundle's signer
    /// has it.
    #[serde(default)]
    pub unseen_by: Option<String>,
    /// Who is to get it.
    #[serde(default)]
    pub audience: Audience,
    /// With what names private persons.
    #[serde(default)]
    pub personal: bool,
    /// With the pictures of photos that go along; without them, what was said of each goes alone.
    #[serde(default = "with_photos")]
    pub photos: bool,
    /// Seal it with this, so that nobody reads it without; none: anyone with the file can.
    #[serde(default)]
    #[schemars(with = "Option<String>")]
    pub passphrase: Option<TypedPassphrase>,
}

const fn with_photos() -> bool {
    true
}

/// Who gets a bundle.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Audience {
    /// Somebody of the shop: what people wrote in their own words goes along.
    #[default]
    Colleague,
    /// Anyone else: complaints, notes and the like are withheld.
    Stranger,
}

/// A bundle, ready to be saved.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BundleMade {
    /// The file.
    pub file: u32,
    /// A name for it.
    pub name: String,
    /// Its length.
    pub bytes: u64,
    /// Records in it.
    pub records: u32,
    /// Jobs in it.
    pub jobs: u32,
    /// Bodies about private persons that were left out.
    pub left_out: u32,
    /// Bodies with free text that were left out.
    pub left_out_text: u32,
    /// Records that were left out because the device has them already.
    pub already_there: u32,
    /// Photos in it with their pictures.
    pub photos: u32,
    /// The bytes of these pictures.
    pub photo_bytes: u64,
    /// True if it is sealed with a passphrase.
    pub sealed: bool,
}

/// Look at a bundle without taking it in.
pub type BundleLook = FileName;

/// What a bundle is and what taking it in would do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BundlePlan {
    /// The file's name.
    pub name: String,
    /// Who made it; empty: the bundle doesn't say by name.
    pub made_by: String,
    /// When, by that device's clock.
    pub made_at: DateTime<Utc>,
    /// The device that made it and those that signed what is in it.
    pub signers: Vec<BundleSigner>,
    /// Records that are new here.
    pub new_records: u32,
    /// Records that are here already.
    pub same_records: u32,
    /// Contents new here, for new records or ones that came without.
    pub new_contents: u32,
    /// Records that it holds without their content, which was left out.
    pub withheld: u32,
    /// Those of them whose kind isn't about a person: free text, or what its maker didn't have.
    pub withheld_text: u32,
    /// Contents here that erasures in it would take for good.
    pub erases: u32,
    /// Contents in it that were erased and are not taken in.
    pub refused: u32,
    /// Photos that it has with their pictures.
    pub photos: u32,
    /// Those of them whose pictures are not all here yet.
    pub new_photos: u32,
    /// The bytes of all pictures in it.
    pub photo_bytes: u64,
    /// True when all of it is here already.
    pub nothing_new: bool,
    /// Its jobs.
    pub jobs: Vec<BundleJob>,
    /// How much else it brings, by kind.
    pub things: Vec<BundleThings>,
    /// Values here that it replaces with later ones.
    pub newer: Vec<BundleValue>,
    /// Values that would stand beside ones written here, neither knowing of the other.
    pub concurrent: Vec<BundleValue>,
    /// Records that only a later version of this program reads; kept and passed on.
    pub unknown: Vec<BundleUnknown>,
}

/// A device that signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BundleSigner {
    /// Fingerprint of its key.
    pub device: String,
    /// Who worked on it, by name.
    pub people: Vec<String>,
    /// User actions that it signed.
    pub actions: u32,
    /// What this shop calls it; empty: nothing yet.
    pub name: String,
    /// True for the one that made the file.
    pub made_it: bool,
    /// True when all that it signed is of the demo shop that comes with the app.
    pub demo: bool,
    /// True when the file is taken in only with an answer about this device.
    pub asks: bool,
    /// What speaks against believing it: then the answer has to say so a second time.
    pub doubts: Vec<SignerDoubt>,
    /// True when nothing here was signed by it yet.
    pub stranger: bool,
    /// True for this very device.
    pub own: bool,
    /// Of a stranger: those of its people whose work is here already, signed by other devices.
    /// Somebody may be passing for them.
    pub poses_as: Vec<String>,
    /// Since when this device's key is not trusted any more here.
    pub distrusted_since: Option<DateTime<Utc>>,
    /// Actions in the file that it signed after that, by its own clock. Whoever found or copied a
    /// device can set that clock back, so none is no proof.
    pub signed_after: u32,
}

/// What speaks against believing that a signer is who it says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SignerDoubt {
    /// A name that is known here, under a key that isn't.
    KnownNameUnknownKey,
    /// Its key is not trusted any more, and it signed something since that isn't here.
    NotTrusted,
    /// This device's own key signed what this device never wrote: the key was copied.
    OwnKeyElsewhere,
}

/// Take a bundle in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BundleTakeIn {
    /// The file.
    pub file: u32,
    /// What was decided about each signer that asks. Stays on this device.
    #[serde(default)]
    pub signers: Vec<SignerAnswer>,
}

/// A signer is accepted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SignerAnswer {
    /// Fingerprint of its key.
    pub device: String,
    /// What the device is called from now on; none: as before.
    #[serde(default)]
    pub name: Option<String>,
    /// True: accepted in spite of what speaks against it.
    #[serde(default)]
    pub despite_doubts: bool,
}

/// Give a device a name. Stays on this device.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DeviceName {
    /// Fingerprint of its key.
    pub device: String,
    /// The name; no other device may have it.
    pub name: String,
}

/// Why a device is not trusted any more.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum DistrustReason {
    /// Nobody knows where it is.
    Lost,
    /// Somebody took it.
    Stolen,
    /// Its key is in two places.
    Copied,
}

/// A device that signed something here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct KnownDevice {
    /// Fingerprint of its key.
    pub device: String,
    /// What this shop calls it; empty: nothing yet.
    pub name: String,
    /// Who worked on it, by name.
    pub people: Vec<String>,
    /// True for this very device.
    pub own: bool,
    /// True for one that made the demo shop.
    pub demo: bool,
    /// Records here that it signed.
    pub records: u32,
    /// When it signed the last action to arrive here, by its own clock.
    pub last_signed: Option<DateTime<Utc>>,
    /// Records here that it is known to have; none: no bundle that it made was taken in yet.
    pub known_to_have: Option<u32>,
    /// Since when its key is not trusted any more.
    pub distrusted_since: Option<DateTime<Utc>>,
    /// Why, if it was said.
    pub reason: Option<DistrustReason>,
    /// True when its key writes in two places.
    pub copied: bool,
}

/// The devices that signed something here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct DeviceList {
    /// They.
    pub devices: Vec<KnownDevice>,
}

/// Say that a device was lost or copied, or that it is trusted again. Stays on this device.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DeviceTrust {
    /// Fingerprint of its key.
    pub device: String,
    /// False: what it signs from then on is warned of.
    pub trusted: bool,
    /// Why not.
    #[serde(default)]
    pub reason: Option<DistrustReason>,
    /// Since when not, from the start of this day; none: since now, or as said before.
    #[serde(default)]
    pub since: Option<NaiveDate>,
}

/// What becomes of something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Brought {
    /// It isn't here yet.
    New,
    /// It is here and gets more.
    Changed,
    /// All of it is here.
    Same,
}

/// One job in a bundle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BundleJob {
    /// Subject.
    pub id: Id,
    /// The job's number.
    pub number: String,
    /// The vehicle.
    pub vehicle: String,
    /// What becomes of it.
    pub brought: Brought,
}

/// Things of one kind.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BundleThings {
    /// The kind, e.g. `unit`.
    pub kind: String,
    /// How many aren't here yet.
    pub new: u32,
    /// How many are here already.
    pub known: u32,
}

/// One value.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BundleValue {
    /// Its kind.
    pub kind: String,
    /// What it belongs to, as far as that has a name.
    pub of: String,
}

/// Records of a kind that this program doesn't read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BundleUnknown {
    /// Their kind.
    pub kind: String,
    /// Its version.
    pub version: u32,
    /// How many.
    pub records: u32,
}

/// What was taken in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BundleTaken {
    /// Names the import, for taking it out again; none: it brought nothing.
    pub import: Option<i64>,
    /// Records that were new.
    pub new_records: u32,
    /// Contents here that erasures in it took.
    pub erased: u32,
}

/// Name an import.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ImportName {
    /// The import.
    pub import: i64,
}

/// The imports that are here, the latest first.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ImportList {
    /// They.
    pub imports: Vec<ImportEntry>,
    /// True when the demo shop is here.
    pub demo: bool,
}

/// One import.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ImportEntry {
    /// Names it.
    pub import: i64,
    /// The file's name.
    pub name: String,
    /// Who made the file.
    pub made_by: String,
    /// When it was taken in.
    pub taken_in: DateTime<Utc>,
    /// Records that it held.
    pub records: u32,
    /// True for the demo shop.
    pub demo: bool,
}
