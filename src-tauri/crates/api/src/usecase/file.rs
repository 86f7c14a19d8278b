//! Files on their way in and out.

use std::io::{self, BufWriter, Read, Write};
use std::path::Path;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use bundle::Limits;

use crate::App;
use crate::dto::{
    FileAdd, FileBegin, FileHeld, FileName, FileOpen, FilePiece, FileRead, FileSave, FileUnseal,
    Nothing,
};
use crate::error::{ApiError, ErrorCode};
use crate::files::{Content, no_room, piece, save as write};
use crate::table::DONE;
use crate::usecase::look;

/// Begins to carry a file in.
pub(crate) fn begin(app: &App, args: FileBegin) -> Result<FileHeld, ApiError> {
    let file = app.files().begin(&args.name)?;
    Ok(FileHeld { file, bytes: 0 })
}

/// Carries in one piece.
pub(crate) fn add(app: &App, args: FileAdd) -> Result<FileHeld, ApiError> {
    let piece = STANDARD.decode(args.base64).map_err(|error| {
        ApiError::new(ErrorCode::BadRequest)
            .with("detail", error)
            .at("base64")
    })?;
    let bytes = app.files().add(args.file, &piece)?;
    Ok(FileHeld {
        file: args.file,
        bytes,
    })
}

/// Takes a file from a path.
pub(crate) fn open(app: &App, args: FileOpen) -> Result<FileHeld, ApiError> {
    app.open_file(Path::new(&args.path))
}

/// Opens a sealed file, once for all that is done with it after: the passphrase is stretched slowly
/// on purpose. If it doesn't open, the file stays as it is, and another passphrase may be tried.
pub(crate) fn unseal(app: &App, args: FileUnseal) -> Result<FileHeld, ApiError> {
    let FileUnseal { file, passphrase } = args;
    let sealed = app.files().sealed(file)?;
    let mut plain = app.files().spool()?;
    bundle::unseal_into(
        sealed.open(),
        BufWriter::new(&mut plain),
        &passphrase.meant(),
        &Limits::default(),
    )?;
    let plain = Content::of(plain).map_err(|error| no_room(&error))?;
    let bytes = app.files().unsealed(file, &sealed, plain)?;
    Ok(FileHeld { file, bytes })
}

/// Gives a piece of a file that was made here.
pub(crate) fn read(app: &App, args: FileRead) -> Result<FilePiece, ApiError> {
    let (_, content) = app.files().ours(args.file)?;
    Ok(FilePiece {
        base64: STANDARD.encode(piece(&content, args.from)?),
        bytes: content.length(),
    })
}

/// Writes a file that was made here to a path.
pub(crate) fn save(app: &App, args: FileSave) -> Result<Nothing, ApiError> {
    app.save_file(args.file, Path::new(&args.path))?;
    Ok(DONE)
}

/// Forgets a file.
pub(crate) fn drop(app: &App, args: FileName) -> Result<Nothing, ApiError> {
    look::end(app, args.file);
    app.files().drop_file(args.file);
    Ok(DONE)
}

/// What a shell does that asks the person for a place, so that no page needs to name a path.
impl App {
    /// Takes a file from a path.
    ///
    /// # Errors
    /// [`ErrorCode::FileUnreadable`], [`ErrorCode::FileTooLarge`].
    pub fn open_file(&self, path: &Path) -> Result<FileHeld, ApiError> {
        let mut files = self.files();
        let file = files.open(path)?;
        let bytes = files.content(file)?.1.length();
        Ok(FileHeld { file, bytes })
    }

    /// Takes a file that the system opened itself, where it hands out no paths.
    ///
    /// # Errors
    /// As [`App::open_file`].
    pub fn take_file(&self, name: &str, content: impl Read) -> Result<FileHeld, ApiError> {
        let mut files = self.files();
        let file = files.take(name, content)?;
        let bytes = files.content(file)?.1.length();
        Ok(FileHeld { file, bytes })
    }

    /// The name of a file that was made here.
    ///
    /// # Errors
    /// [`ErrorCode::NotFound`], also for a file that came from elsewhere.
    pub fn made_name(&self, file: u32) -> Result<String, ApiError> {
        Ok(self.files().ours(file)?.0)
    }

    /// Writes a file that was made here to a path, whole or not at all.
    ///
    /// # Errors
    /// [`ErrorCode::NotFound`], [`ErrorCode::FileUnwritable`].
    pub fn save_file(&self, file: u32, path: &Path) -> Result<(), ApiError> {
        let (name, content) = self.files().ours(file)?;
        write(&name, &content, path)
    }

    /// Writes a file that was made here into what the system opened itself, under a name for
    /// errors. A failure may leave a part of it there.
    ///
    /// # Errors
    /// As [`App::save_file`].
    pub fn give_file(&self, file: u32, name: &str, mut out: impl Write) -> Result<(), ApiError> {
        let (_, content) = self.files().ours(file)?;
        io::copy(&mut content.open(), &mut out)
            .and_then(|_| out.flush())
            .map_err(|error| {
                ApiError::new(ErrorCode::FileUnwritable)
                    .with("path", name)
                    .with("detail", error)
            })
    }
}
