//! Files that are written whole or not at all.

use std::io::Write;
use std::path::Path;

use super::Streams;

/// Says so when a file is there that must not be replaced, before anything is computed.
pub(super) fn free(path: &Path, force: bool, streams: &mut Streams<'_>) -> Result<(), u8> {
    if path.exists() && !force {
        return Err(streams.fail(&format!("{} exists: name another file, or add --force", path.display())));
    }
    Ok(())
}

/// Writes a file, or says why it could not be.
pub(super) fn write(path: &Path, bytes: &[u8], force: bool, streams: &mut Streams<'_>) -> Result<(), u8> {
    replace(path, bytes, force).map_err(|e| streams.fail(&format!("{} could not be written: {e}", path.display())))
}

/// Writes beside the file and renames, so that there is never half of one; without `force` a file that came to be
/// in the meantime stays.
pub(super) fn replace(path: &Path, bytes: &[u8], force: bool) -> std::io::Result<()> {
    let folder = match path.parent() {
        Some(p) if !p.as_os_str().is_empty() => p,
        _ => Path::new("."),
    };
    let mut file = tempfile::Builder::new().prefix(".sheet").tempfile_in(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        file.as_file().set_permissions(std::fs::Permissions::from_mode(0o644))?;
    }
    if force { file.persist(path) } else { file.persist_noclobber(path) }.map(|_| ()).map_err(|e| e.error)
}
