//! Files on their way in and out.

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
use crate::files::save as write;
use crate::table::DONE;

/// Begins to carry a file in.
pub(crate) fn begin(app: &App, args: FileBegin) -> Result<FileHeld, ApiError> {
    let file = app.files().begin(&args.name);
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
    let mut files = app.files();
    let file = files.open(Path::new(&args.path))?;
    let bytes = files.content(file)?.1.len() as u64;
    Ok(FileHeld { file, bytes })
}

/// Opens a sealed file, once for all that is done with it after: the passphrase is stretched slowly
/// on purpose. If it doesn't open, the file stays as it is, and another passphrase may be tried.
pub(crate) fn unseal(app: &App, args: FileUnseal) -> Result<FileHeld, ApiError> {
    let FileUnseal { file, passphrase } = args;
    let sealed = app.files().sealed(file)?;
    let bytes = bundle::unseal(&sealed, &passphrase.meant(), &Limits::default())?;
    let bytes = app.files().unsealed(file, &sealed, bytes)?;
    Ok(FileHeld { file, bytes })
}

/// Gives a piece of a file that was made here.
pub(crate) fn read(app: &App, args: FileRead) -> Result<FilePiece, ApiError> {
    let files = app.files();
    let (piece, bytes) = files.piece(args.file, args.from)?;
    Ok(FilePiece {
        base64: STANDARD.encode(piece),
        bytes,
    })
}

/// Writes a file that was made here to a path.
pub(crate) fn save(app: &App, args: FileSave) -> Result<Nothing, ApiError> {
    let (name, bytes) = {
        let files = app.files();
        files.piece(args.file, 0)?;
        files.content(args.file)?
    };
    write(&name, &bytes, Path::new(&args.path))?;
    Ok(DONE)
}

/// Forgets a file.
pub(crate) fn drop(app: &App, args: FileName) -> Result<Nothing, ApiError> {
    app.files().drop_file(args.file);
    Ok(DONE)
}
