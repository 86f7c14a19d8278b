//! Where the app keeps its files.

use std::env;
use std::ffi::OsString;
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io;
use std::path::{Path, PathBuf};

use tauri::Manager;

use super::{AUTOMATION_VARIABLE, automated};

/// Names another data folder. Tests set it; so can a person who keeps several shops apart.
pub const DATA_VARIABLE: &str = "VALVEWRIGHT_DATA";

/// Why there is no data folder to work in.
#[derive(Debug, thiserror::Error)]
pub enum FilesError {
    /// A test would have used the person's own data.
    #[error(
        "{AUTOMATION_VARIABLE} is set, so a test drives the app, and a test must not touch a \
         person's own data: set {DATA_VARIABLE} to a folder for it"
    )]
    AutomatedOnOwnData,
    /// The system names no folder for app data.
    #[error("the system names no folder for app data: {0}")]
    Unknown(#[from] tauri::Error),
    /// The folder can't be made.
    #[error("the data folder {} can't be used: {source}", path.display())]
    Unusable {
        /// The folder that was asked for.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
}

/// The folder that holds the store and everything else that belongs to the person's work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DataFolder {
    path: PathBuf,
    /// Whether [`DATA_VARIABLE`] named it.
    named: bool,
}

impl DataFolder {
    /// The folder that [`DATA_VARIABLE`] names, else the system's folder for this app's data.
    ///
    /// # Errors
    /// [`FilesError`], if there is none or if a test would get the person's own.
    pub fn find(app: &tauri::AppHandle) -> Result<Self, FilesError> {
        Self::choose(env::var_os(DATA_VARIABLE), automated(), || {
            Ok(app.path().app_data_dir()?)
        })
    }

    fn choose(
        named: Option<OsString>,
        automated: bool,
        usual: impl FnOnce() -> Result<PathBuf, FilesError>,
    ) -> Result<Self, FilesError> {
        match named.filter(|name| !name.is_empty()) {
            Some(name) => {
                let path = std::path::absolute(&name).map_err(|source| FilesError::Unusable {
                    path: PathBuf::from(&name),
                    source,
                })?;
                Ok(Self { path, named: true })
            }
            None if automated => Err(FilesError::AutomatedOnOwnData),
            None => Ok(Self {
                path: usual()?,
                named: false,
            }),
        }
    }

    /// Makes the folder if it is missing, open to nobody but its owner: it will hold customers'
    /// names. A folder that exists is left as it is.
    ///
    /// # Errors
    /// [`FilesError::Unusable`].
    pub fn create(&self) -> Result<(), FilesError> {
        make_private(&self.path).map_err(|source| FilesError::Unusable {
            path: self.path.clone(),
            source,
        })
    }

    /// A name for this folder that two folders don't share; none for the usual one.
    pub fn mark(&self) -> Option<String> {
        let mut hasher = DefaultHasher::new();
        self.path.hash(&mut hasher);
        self.named.then(|| format!("{:016x}", hasher.finish()))
    }

    /// The store's file.
    pub fn store(&self) -> PathBuf {
        self.path.join("valvewright.db")
    }

    /// Where the web view keeps its own data if not in its usual place: beside the store when
    /// the folder was named, so that two shops, or two tests, share nothing.
    pub fn web_data(&self) -> Option<PathBuf> {
        self.named.then(|| self.path.join("webview"))
    }
}

fn make_private(path: &Path) -> io::Result<()> {
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt;
        builder.mode(0o700);
    }
    builder.create(path)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn usual() -> Result<PathBuf, FilesError> {
        Ok(PathBuf::from(
            "/home/somebody/.local/share/org.valvewright.app",
        ))
    }

    #[test]
    fn a_person_gets_the_systems_folder_for_the_app() {
        let folder = DataFolder::choose(None, false, usual).unwrap();
        assert_eq!(folder.store(), usual().unwrap().join("valvewright.db"));
        assert_eq!(folder.web_data(), None);
        assert_eq!(folder.mark(), None);
    }

    #[test]
    fn a_named_folder_wins_and_holds_the_web_views_data_too() {
        let folder = DataFolder::choose(Some("/tmp/shop".into()), false, usual).unwrap();
        assert_eq!(folder.store(), Path::new("/tmp/shop/valvewright.db"));
        assert_eq!(folder.web_data(), Some(PathBuf::from("/tmp/shop/webview")));
        let other = DataFolder::choose(Some("/tmp/other".into()), false, usual).unwrap();
        assert!(folder.mark().is_some());
        assert_ne!(folder.mark(), other.mark());
    }

    #[test]
    fn an_empty_name_names_nothing() {
        let folder = DataFolder::choose(Some(OsString::new()), false, usual).unwrap();
        assert_eq!(folder.store(), usual().unwrap().join("valvewright.db"));
    }

    #[test]
    fn a_test_that_names_no_folder_is_turned_away() {
        let refused = DataFolder::choose(None, true, || unreachable!("never asked for"));
        assert!(matches!(refused, Err(FilesError::AutomatedOnOwnData)));
        assert!(DataFolder::choose(Some("/tmp/test".into()), true, usual).is_ok());
    }

    #[cfg(unix)]
    #[test]
    fn the_folder_is_made_for_its_owner_alone() {
        use std::os::unix::fs::PermissionsExt;
        let parent = tempfile::tempdir().unwrap();
        let folder = DataFolder {
            path: parent.path().join("a/b"),
            named: true,
        };
        folder.create().unwrap();
        folder.create().unwrap();
        let mode = fs::metadata(&folder.path).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o700);
    }

    #[test]
    fn a_file_in_the_way_is_said_to_be_unusable() {
        let parent = tempfile::tempdir().unwrap();
        let path = parent.path().join("taken");
        fs::write(&path, "").unwrap();
        let refused = DataFolder {
            path: path.clone(),
            named: true,
        }
        .create()
        .unwrap_err();
        assert!(refused.to_string().contains(&path.display().to_string()));
    }
}
