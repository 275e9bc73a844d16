/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file whole or not at all: temporary file beside it, sync, rename, sync of the folder. See lanewick/desk.h.
 */
#include "lanewick/desk.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool write_all(int file, const unsigned char *bytes, size_t left)
{
    while (left > 0) {
        const ssize_t n = write(file, bytes, left);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return false;
        bytes += n;
        left -= (size_t)n;
    }
    return true;
}

static bool fill(const char *path, const unsigned char *bytes, size_t size)
{
    const int file = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644);
    if (file < 0)
        return false;
    const bool well = write_all(file, bytes, size) && fsync(file) == 0;
    return (close(file) == 0) && well;
}

static void sync_folder(const char *folder)
{
    const int handle = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle < 0)
        return;
    (void)fsync(handle);
    (void)close(handle);
}

/* The folders above it that are not there. */
static void make_above(const char *folder)
{
    char path[1024];
    if (strlen(folder) >= sizeof path)
        return;
    (void)snprintf(path, sizeof path, "%s", folder);
    for (char *slash = strchr(path + 1, '/'); path[0] && slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        (void)mkdir(path, 0755);
        *slash = '/';
    }
}

bool lw_desk_make_folder(const char *folder, lw_error *err)
{
    if (mkdir(folder, 0755) == 0 || errno == EEXIST)
        return true;
    if (errno == ENOENT && folder[0]) {
        make_above(folder);
        if (mkdir(folder, 0755) == 0 || errno == EEXIST)
            return true;
    }
    return lw_fail(err, LW_STORAGE, "out", "The folder %.200s could not be made: %s.", folder, strerror(errno));
}

/* access() asks for the real user; what a full disk does is only known when it is written. */
bool lw_desk_try_folder(const char *folder, lw_error *err)
{
    struct stat about;
    if (stat(folder, &about) == 0 && !S_ISDIR(about.st_mode))
        return lw_fail(err, LW_STORAGE, "out", "%.200s is a file; give a folder.", folder);
    if (!lw_desk_make_folder(folder, err))
        return false;
    if (access(folder, W_OK | X_OK) != 0)
        return lw_fail(err, LW_STORAGE, "out", "The folder %.200s cannot be written to: %s.", folder, strerror(errno));
    return true;
}

bool lw_desk_write(const char *folder, const char *name, const char *text, lw_error *err)
{
    return lw_desk_write_bytes(folder, name, (const unsigned char *)text, strlen(text), err);
}

bool lw_desk_write_bytes(const char *folder, const char *name, const unsigned char *bytes, size_t size, lw_error *err)
{
    char path[1024], temporary[1060];
    const int length = snprintf(path, sizeof path, "%s/%s", folder, name);
    if (length < 0 || (size_t)length >= sizeof path)
        return lw_fail(err, LW_WRONG_INPUT, "out", "The folder's name is too long.");
    (void)snprintf(temporary, sizeof temporary, "%s.part.%ld", path, (long)getpid());
    if (!lw_desk_make_folder(folder, err))
        return false;
    if (!fill(temporary, bytes, size) || rename(temporary, path) != 0) {
        const int why = errno;
        (void)unlink(temporary);
        return lw_fail(err, LW_STORAGE, "out", "%.200s could not be written: %s.", path, strerror(why));
    }
    sync_folder(folder);
    return true;
}

/* "some/where/head.ies" -> "some/where" and its last part. */
static const char *split(const char *path, char *folder, size_t size)
{
    const char *slash = strrchr(path, '/');
    (void)snprintf(folder, size, "%.*s", slash ? (int)(slash - path) : 1, slash ? path : ".");
    if (slash == path)
        (void)snprintf(folder, size, "/");
    return slash ? slash + 1 : path;
}

bool lw_desk_write_path(const char *path, const unsigned char *bytes, size_t size, lw_error *err)
{
    char folder[1024];
    const char *name = split(path, folder, sizeof folder);
    if (!name[0] || strlen(path) >= sizeof folder)
        return lw_fail(err, LW_WRONG_INPUT, "out", "%.200s is no name of a file.", path);
    return lw_desk_write_bytes(folder, name, bytes, size, err);
}
