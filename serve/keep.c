/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The server's own small files: see keep.h. Temporary file beside it with mode 0600, sync, rename, sync of the folder.
 */
#include "keep.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PATH = 1024 };

static bool make(const char *folder)
{
    char path[PATH];
    (void)snprintf(path, sizeof path, "%s", folder);
    for (char *slash = strchr(path + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        if (mkdir(path, 0700) != 0 && errno != EEXIST)
            return false;
        *slash = '/';
    }
    return mkdir(path, 0700) == 0 || errno == EEXIST;
}

bool lw_keep_open(const char *folder, lw_error *err)
{
    struct stat about;
    if (strlen(folder) + 64 > PATH)
        return lw_fail(err, LW_WRONG_INPUT, "--folder", "The folder's name is too long.");
    if (!make(folder) || stat(folder, &about) != 0)
        return lw_fail(err, LW_STORAGE, "--folder", "The folder %.200s could not be made: %s.", folder,
                       strerror(errno));
    if (!S_ISDIR(about.st_mode) || about.st_uid != geteuid() || (about.st_mode & 022) != 0)
        return lw_fail(err, LW_STORAGE, "--folder",
                       "%.200s must be a folder of your own that nobody else may write to; it holds keys.", folder);
    return true;
}

static bool path_of(const char *folder, const char *name, char out[PATH], lw_error *err)
{
    const int length = snprintf(out, PATH, "%s/%s", folder, name);
    return (length > 0 && length < PATH) || lw_fail(err, LW_WRONG_INPUT, "--folder", "The folder's name is too long.");
}

bool lw_keep_read(const char *folder, const char *name, char **text, lw_error *err)
{
    char path[PATH];
    *text = NULL;
    if (!path_of(folder, name, path, err))
        return false;
    FILE *file = fopen(path, "rb");
    if (!file && errno == ENOENT)
        return true;
    char *bytes = file ? malloc(LW_KEEP_BYTES + 1) : NULL;
    const size_t count = bytes ? fread(bytes, 1, LW_KEEP_BYTES, file) : 0;
    const bool well = bytes && !ferror(file) && count < LW_KEEP_BYTES;
    if (file)
        (void)fclose(file);
    if (!well) {
        free(bytes);
        return lw_fail(err, LW_STORAGE, name, "%.200s could not be read.", path);
    }
    bytes[count] = '\0';
    *text = bytes;
    return true;
}

static bool fill(const char *path, const char *text)
{
    const size_t length = strlen(text);
    const int file = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (file < 0)
        return false;
    size_t done = 0;
    while (done < length) {
        const ssize_t n = write(file, text + done, length - done);
        if (n <= 0 && !(n < 0 && errno == EINTR))
            break;
        done += n > 0 ? (size_t)n : 0;
    }
    const bool well = done == length && fsync(file) == 0;
    return (close(file) == 0) && well;
}

bool lw_keep_write(const char *folder, const char *name, const char *text, lw_error *err)
{
    char path[PATH], temporary[PATH], part[80];
    (void)snprintf(part, sizeof part, "%.60s.part", name);
    if (!path_of(folder, name, path, err) || !path_of(folder, part, temporary, err))
        return false;
    if (!fill(temporary, text) || rename(temporary, path) != 0) {
        const int why = errno;
        (void)unlink(temporary);
        return lw_fail(err, LW_STORAGE, name, "%.200s could not be written: %s.", path, strerror(why));
    }
    const int handle = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle >= 0) {
        (void)fsync(handle);
        (void)close(handle);
    }
    return true;
}
