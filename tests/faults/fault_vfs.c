/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See fault_vfs.h. The real file object lies behind ours; all methods forward, writes and syncs count first.
 */
#include "fault_vfs.h"

#include <sqlite3.h>
#include <string.h>

fault_plan fault;

typedef struct faulty_file {
    sqlite3_file base;
    sqlite3_file *real;
} faulty_file;

static sqlite3_vfs *usual;
static sqlite3_vfs ours;
static sqlite3_io_methods methods;

static sqlite3_file *real_of(sqlite3_file *file)
{
    return ((faulty_file *)file)->real;
}

static int write_file(sqlite3_file *file, const void *bytes, int count, sqlite3_int64 at)
{
    fault.writes++;
    fault.bytes += count;
    if (fault.fail_write > 0 && fault.writes >= fault.fail_write)
        return SQLITE_IOERR_WRITE;
    if (fault.disk_bytes > 0 && fault.bytes > fault.disk_bytes)
        return SQLITE_FULL;
    return real_of(file)->pMethods->xWrite(real_of(file), bytes, count, at);
}

static int sync_file(sqlite3_file *file, int flags)
{
    fault.syncs++;
    if (fault.fail_sync > 0 && fault.syncs == fault.fail_sync)
        return SQLITE_IOERR_FSYNC;
    return real_of(file)->pMethods->xSync(real_of(file), flags);
}

static int close_file(sqlite3_file *file)
{
    return real_of(file)->pMethods->xClose(real_of(file));
}

static int read_file(sqlite3_file *file, void *bytes, int count, sqlite3_int64 at)
{
    return real_of(file)->pMethods->xRead(real_of(file), bytes, count, at);
}

static int truncate_file(sqlite3_file *file, sqlite3_int64 size)
{
    return real_of(file)->pMethods->xTruncate(real_of(file), size);
}

static int file_size(sqlite3_file *file, sqlite3_int64 *size)
{
    return real_of(file)->pMethods->xFileSize(real_of(file), size);
}

static int lock_file(sqlite3_file *file, int level)
{
    return real_of(file)->pMethods->xLock(real_of(file), level);
}

static int unlock_file(sqlite3_file *file, int level)
{
    return real_of(file)->pMethods->xUnlock(real_of(file), level);
}

static int check_lock(sqlite3_file *file, int *result)
{
    return real_of(file)->pMethods->xCheckReservedLock(real_of(file), result);
}

static int control(sqlite3_file *file, int operation, void *argument)
{
    return real_of(file)->pMethods->xFileControl(real_of(file), operation, argument);
}

static int sector(sqlite3_file *file)
{
    return real_of(file)->pMethods->xSectorSize(real_of(file));
}

static int characteristics(sqlite3_file *file)
{
    return real_of(file)->pMethods->xDeviceCharacteristics(real_of(file));
}

static int shm_map(sqlite3_file *file, int page, int size, int extend, void volatile **out)
{
    return real_of(file)->pMethods->xShmMap(real_of(file), page, size, extend, out);
}

static int shm_lock(sqlite3_file *file, int offset, int n, int flags)
{
    return real_of(file)->pMethods->xShmLock(real_of(file), offset, n, flags);
}

static void shm_barrier(sqlite3_file *file)
{
    real_of(file)->pMethods->xShmBarrier(real_of(file));
}

static int shm_unmap(sqlite3_file *file, int remove)
{
    return real_of(file)->pMethods->xShmUnmap(real_of(file), remove);
}

static int open_file(sqlite3_vfs *vfs, const char *name, sqlite3_file *file, int flags, int *out)
{
    (void)vfs;
    faulty_file *mine = (faulty_file *)file;
    mine->real = (sqlite3_file *)(mine + 1);
    const int code = usual->xOpen(usual, name, mine->real, flags, out);
    mine->base.pMethods = mine->real->pMethods ? &methods : NULL;
    return code;
}

void fault_vfs_register(void)
{
    if (usual)
        return;
    usual = sqlite3_vfs_find(NULL);
    ours = *usual;
    ours.pNext = NULL;
    ours.zName = "fault";
    ours.szOsFile = (int)sizeof(faulty_file) + usual->szOsFile;
    ours.xOpen = open_file;
    methods = (sqlite3_io_methods){.iVersion = 2,
                                   .xClose = close_file,
                                   .xRead = read_file,
                                   .xWrite = write_file,
                                   .xTruncate = truncate_file,
                                   .xSync = sync_file,
                                   .xFileSize = file_size,
                                   .xLock = lock_file,
                                   .xUnlock = unlock_file,
                                   .xCheckReservedLock = check_lock,
                                   .xFileControl = control,
                                   .xSectorSize = sector,
                                   .xDeviceCharacteristics = characteristics,
                                   .xShmMap = shm_map,
                                   .xShmLock = shm_lock,
                                   .xShmBarrier = shm_barrier,
                                   .xShmUnmap = shm_unmap};
    (void)sqlite3_vfs_register(&ours, 0);
}
