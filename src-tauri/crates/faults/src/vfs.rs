//! The disk as SQLite's table of functions (<https://www.sqlite.org/vfs.html>). One connection at a
//! time is assumed: locks always succeed.

use std::ffi::{CStr, c_char, c_int, c_void};
use std::ptr;
use std::sync::Once;
use std::time::{SystemTime, UNIX_EPOCH};

use rusqlite::ffi;

use crate::disk::{self, Refused};

/// What SQLite allots for an open file.
#[repr(C)]
struct Handle {
    base: ffi::sqlite3_file,
    /// Owned; null after closing.
    name: *mut String,
    /// The regions of the write-ahead log's index.
    shared: *mut Vec<Box<[u8]>>,
    remove_on_close: bool,
}

/// # Safety
/// `file` is a handle that [`x_open`] filled and [`x_close`] has not emptied.
unsafe fn name<'a>(file: *mut ffi::sqlite3_file) -> &'a str {
    // SAFETY: as above, and the name lives until x_close.
    unsafe { (*(*file.cast::<Handle>()).name).as_str() }
}

fn code(done: Result<(), Refused>, error: c_int) -> c_int {
    match done {
        Ok(()) => ffi::SQLITE_OK,
        Err(Refused::Error) => error,
        Err(Refused::Full) => ffi::SQLITE_FULL,
    }
}

unsafe extern "C" fn x_open(
    _: *mut ffi::sqlite3_vfs,
    path: ffi::sqlite3_filename,
    file: *mut ffi::sqlite3_file,
    flags: c_int,
    out_flags: *mut c_int,
) -> c_int {
    let name = if path.is_null() {
        // A file for sorting and the like, that nobody else sees.
        format!("(temporary {file:p})")
    } else {
        // SAFETY: SQLite gives a terminated name.
        unsafe { CStr::from_ptr(path) }
            .to_string_lossy()
            .into_owned()
    };
    let create = path.is_null() || flags & ffi::SQLITE_OPEN_CREATE != 0;
    // SAFETY: SQLite allots szOsFile bytes for the handle and the flags may be null.
    unsafe {
        (*file).pMethods = ptr::null();
        if disk::open(&name, create).is_err() {
            return ffi::SQLITE_CANTOPEN;
        }
        let handle = file.cast::<Handle>();
        (*handle).name = Box::into_raw(Box::new(name));
        (*handle).shared = Box::into_raw(Box::default());
        (*handle).remove_on_close = path.is_null() || flags & ffi::SQLITE_OPEN_DELETEONCLOSE != 0;
        (*file).pMethods = &raw const METHODS;
        if !out_flags.is_null() {
            *out_flags = flags;
        }
    }
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_delete(_: *mut ffi::sqlite3_vfs, path: *const c_char, sync: c_int) -> c_int {
    // SAFETY: SQLite gives a terminated name.
    let name = unsafe { CStr::from_ptr(path) }
        .to_string_lossy()
        .into_owned();
    if !disk::exists(&name) {
        return ffi::SQLITE_IOERR_DELETE_NOENT;
    }
    code(disk::remove(&name, sync != 0), ffi::SQLITE_IOERR_DELETE)
}

unsafe extern "C" fn x_access(
    _: *mut ffi::sqlite3_vfs,
    path: *const c_char,
    _: c_int,
    out: *mut c_int,
) -> c_int {
    // SAFETY: SQLite gives a terminated name and a place for the answer. A file counts as there
    // for xAccess only if it holds something, as on a Unix system.
    unsafe {
        let name = CStr::from_ptr(path).to_string_lossy().into_owned();
        *out = c_int::from(disk::exists(&name) && disk::size(&name) > 0);
    }
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_full_pathname(
    _: *mut ffi::sqlite3_vfs,
    path: *const c_char,
    room: c_int,
    out: *mut c_char,
) -> c_int {
    // SAFETY: SQLite gives a terminated name and room for `room` bytes.
    unsafe {
        let bytes = CStr::from_ptr(path).to_bytes_with_nul();
        if bytes.len() > usize::try_from(room).unwrap_or(0) {
            return ffi::SQLITE_CANTOPEN;
        }
        ptr::copy_nonoverlapping(bytes.as_ptr().cast(), out, bytes.len());
    }
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_randomness(
    _: *mut ffi::sqlite3_vfs,
    room: c_int,
    out: *mut c_char,
) -> c_int {
    // Salts need only differ.
    let mut word = now_nanos() as u64 | 1;
    for i in 0..usize::try_from(room).unwrap_or(0) {
        word = word.wrapping_mul(0x9e37_79b9_7f4a_7c15).rotate_left(23) ^ 0x5a;
        // SAFETY: SQLite gives room for `room` bytes.
        unsafe { *out.add(i) = word as c_char };
    }
    room
}

fn now_nanos() -> u128 {
    SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_or(0, |time| time.as_nanos())
}

unsafe extern "C" fn x_sleep(_: *mut ffi::sqlite3_vfs, micros: c_int) -> c_int {
    micros
}

unsafe extern "C" fn x_current_time(
    _: *mut ffi::sqlite3_vfs,
    out: *mut ffi::sqlite3_int64,
) -> c_int {
    // Milliseconds since noon in Greenwich on November 24, 4714 B.C., as SQLite counts.
    // SAFETY: SQLite gives a place for the answer.
    unsafe { *out = 210_866_760_000_000 + (now_nanos() / 1_000_000) as i64 };
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_close(file: *mut ffi::sqlite3_file) -> c_int {
    // SAFETY: SQLite closes a handle once, and uses it no more.
    unsafe {
        let handle = file.cast::<Handle>();
        let name = Box::from_raw((*handle).name);
        drop(Box::from_raw((*handle).shared));
        (*handle).name = ptr::null_mut();
        (*handle).shared = ptr::null_mut();
        if (*handle).remove_on_close {
            // Best effort, as anywhere.
            let _ = disk::remove(&name, false);
        }
    }
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_read(
    file: *mut ffi::sqlite3_file,
    buffer: *mut c_void,
    length: c_int,
    at: ffi::sqlite3_int64,
) -> c_int {
    let length = usize::try_from(length).unwrap_or(0);
    // SAFETY: SQLite gives an open handle and room for `length` bytes.
    let read = unsafe {
        let buffer = std::slice::from_raw_parts_mut(buffer.cast::<u8>(), length);
        disk::read(
            name(file),
            usize::try_from(at).unwrap_or(usize::MAX),
            buffer,
        )
    };
    if read == length {
        ffi::SQLITE_OK
    } else {
        ffi::SQLITE_IOERR_SHORT_READ
    }
}

unsafe extern "C" fn x_write(
    file: *mut ffi::sqlite3_file,
    buffer: *const c_void,
    length: c_int,
    at: ffi::sqlite3_int64,
) -> c_int {
    // SAFETY: SQLite gives an open handle and `length` bytes.
    let done = unsafe {
        let length = usize::try_from(length).unwrap_or(0);
        let bytes = std::slice::from_raw_parts(buffer.cast::<u8>(), length);
        disk::write(name(file), usize::try_from(at).unwrap_or(0), bytes)
    };
    code(done, ffi::SQLITE_IOERR_WRITE)
}

unsafe extern "C" fn x_truncate(file: *mut ffi::sqlite3_file, length: ffi::sqlite3_int64) -> c_int {
    // SAFETY: SQLite gives an open handle.
    let name = unsafe { name(file) };
    let done = disk::truncate(name, usize::try_from(length).unwrap_or(0));
    code(done, ffi::SQLITE_IOERR_TRUNCATE)
}

unsafe extern "C" fn x_sync(file: *mut ffi::sqlite3_file, _: c_int) -> c_int {
    // SAFETY: SQLite gives an open handle.
    code(disk::sync(unsafe { name(file) }), ffi::SQLITE_IOERR_FSYNC)
}

unsafe extern "C" fn x_file_size(
    file: *mut ffi::sqlite3_file,
    out: *mut ffi::sqlite3_int64,
) -> c_int {
    // SAFETY: SQLite gives an open handle and a place for the answer.
    unsafe { *out = disk::size(name(file)) as i64 };
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_lock(_: *mut ffi::sqlite3_file, _: c_int) -> c_int {
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_check_reserved(_: *mut ffi::sqlite3_file, out: *mut c_int) -> c_int {
    // SAFETY: SQLite gives a place for the answer.
    unsafe { *out = 0 };
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_file_control(_: *mut ffi::sqlite3_file, _: c_int, _: *mut c_void) -> c_int {
    ffi::SQLITE_NOTFOUND
}

unsafe extern "C" fn x_sector_size(_: *mut ffi::sqlite3_file) -> c_int {
    disk::SECTOR as c_int
}

unsafe extern "C" fn x_characteristics(_: *mut ffi::sqlite3_file) -> c_int {
    // What was not written to is left alone when the power goes, as of any disk made since.
    ffi::SQLITE_IOCAP_POWERSAFE_OVERWRITE
}

unsafe extern "C" fn x_shm_map(
    file: *mut ffi::sqlite3_file,
    region: c_int,
    size: c_int,
    extend: c_int,
    out: *mut *mut c_void,
) -> c_int {
    let (region, size) = (
        usize::try_from(region).unwrap_or(0),
        usize::try_from(size).unwrap_or(0),
    );
    // SAFETY: SQLite gives an open handle and a place for the answer; a region never moves.
    unsafe {
        let regions = &mut *(*file.cast::<Handle>()).shared;
        if region >= regions.len() && extend != 0 {
            regions.resize_with(region + 1, || vec![0; size].into_boxed_slice());
        }
        *out = regions
            .get_mut(region)
            .map_or(ptr::null_mut(), |bytes| bytes.as_mut_ptr().cast());
    }
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_shm_lock(_: *mut ffi::sqlite3_file, _: c_int, _: c_int, _: c_int) -> c_int {
    ffi::SQLITE_OK
}

unsafe extern "C" fn x_shm_barrier(_: *mut ffi::sqlite3_file) {}

unsafe extern "C" fn x_shm_unmap(file: *mut ffi::sqlite3_file, _: c_int) -> c_int {
    // SAFETY: SQLite gives an open handle and uses its regions no more.
    unsafe { (*(*file.cast::<Handle>()).shared).clear() };
    ffi::SQLITE_OK
}

static METHODS: ffi::sqlite3_io_methods = ffi::sqlite3_io_methods {
    iVersion: 2,
    xClose: Some(x_close),
    xRead: Some(x_read),
    xWrite: Some(x_write),
    xTruncate: Some(x_truncate),
    xSync: Some(x_sync),
    xFileSize: Some(x_file_size),
    xLock: Some(x_lock),
    xUnlock: Some(x_lock),
    xCheckReservedLock: Some(x_check_reserved),
    xFileControl: Some(x_file_control),
    xSectorSize: Some(x_sector_size),
    xDeviceCharacteristics: Some(x_characteristics),
    xShmMap: Some(x_shm_map),
    xShmLock: Some(x_shm_lock),
    xShmBarrier: Some(x_shm_barrier),
    xShmUnmap: Some(x_shm_unmap),
    xFetch: None,
    xUnfetch: None,
};

/// Makes the disk SQLite's default.
pub(crate) fn register() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let vfs = ffi::sqlite3_vfs {
            iVersion: 2,
            szOsFile: size_of::<Handle>() as c_int,
            mxPathname: 1024,
            pNext: ptr::null_mut(),
            zName: c"faulty".as_ptr(),
            pAppData: ptr::null_mut(),
            xOpen: Some(x_open),
            xDelete: Some(x_delete),
            xAccess: Some(x_access),
            xFullPathname: Some(x_full_pathname),
            xDlOpen: None,
            xDlError: None,
            xDlSym: None,
            xDlClose: None,
            xRandomness: Some(x_randomness),
            xSleep: Some(x_sleep),
            xCurrentTime: None,
            xGetLastError: None,
            xCurrentTimeInt64: Some(x_current_time),
            xSetSystemCall: None,
            xGetSystemCall: None,
            xNextSystemCall: None,
        };
        // SAFETY: the table lives as long as the process, and its functions keep SQLite's rules.
        let done = unsafe { ffi::sqlite3_vfs_register(Box::into_raw(Box::new(vfs)), 1) };
        assert_eq!(done, ffi::SQLITE_OK);
    });
}
