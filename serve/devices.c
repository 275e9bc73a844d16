/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Paired devices: see devices.h. A try counts as wrong before it is judged, so that many at one time gain nothing.
 */
#include "devices.h"

#include "devices_file.h"

#include <ctype.h>
#include <sodium.h>
#include <stdio.h>
#include <string.h>

static const char signs[] = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
static const int64_t day_s = 86400, hour_s = 3600, minute_s = 60;

const char *lw_role_text(lw_role role)
{
    static const char *const names[] = {"none", "bench", "planner", "owner"};
    return names[role];
}

lw_role lw_role_of(const char *text)
{
    for (lw_role role = LW_ROLE_BENCH; role <= LW_ROLE_OWNER; role++)
        if (strcmp(lw_role_text(role), text) == 0)
            return role;
    return LW_ROLE_NONE;
}

bool lw_devices_open(lw_devices *devices, const char *folder, lw_error *err)
{
    memset(devices, 0, sizeof *devices);
    (void)pthread_mutex_init(&devices->lock, NULL);
    if (sodium_init() < 0)
        return lw_fail(err, LW_STORAGE, "", "The system gives no random numbers.");
    (void)snprintf(devices->folder, sizeof devices->folder, "%s", folder ? folder : "");
    return !folder || lw_devices_load(devices, err);
}

void lw_devices_open_code(lw_devices *devices, lw_role role, int64_t now_s, char code[LW_CODE], int64_t *ends_s)
{
    (void)pthread_mutex_lock(&devices->lock);
    for (size_t i = 0; i + 1 < LW_CODE; i++)
        devices->code[i] = signs[randombytes_uniform(sizeof signs - 1)];
    devices->code[LW_CODE - 1] = '\0';
    devices->code_role = role;
    devices->code_ends_s = now_s + LW_CODE_MINUTES * minute_s;
    devices->wrong = 0;
    devices->locked_until_s = 0;
    memcpy(code, devices->code, LW_CODE);
    *ends_s = devices->code_ends_s;
    (void)pthread_mutex_unlock(&devices->lock);
}

static void close_code(lw_devices *devices)
{
    sodium_memzero(devices->code, sizeof devices->code);
}

void lw_devices_close_code(lw_devices *devices)
{
    (void)pthread_mutex_lock(&devices->lock);
    close_code(devices);
    (void)pthread_mutex_unlock(&devices->lock);
}

/* One more try; false: locked. */
static bool count_try(lw_devices *devices, int64_t now_s)
{
    if (now_s < devices->locked_until_s)
        return false;
    devices->wrong++;
    if (devices->wrong % LW_WRONG_TRIES == 0) {
        const int doubled = devices->wrong / LW_WRONG_TRIES - 1;
        const int64_t wait_s = doubled > 5 ? hour_s : minute_s << doubled;
        devices->locked_until_s = now_s + wait_s;
    }
    return true;
}

static void right_try(lw_devices *devices)
{
    devices->wrong = 0;
    devices->locked_until_s = 0;
}

int lw_devices_locked_for_s(lw_devices *devices, int64_t now_s)
{
    (void)pthread_mutex_lock(&devices->lock);
    const int64_t left = devices->locked_until_s - now_s;
    (void)pthread_mutex_unlock(&devices->lock);
    return left > 0 ? (int)left : 0;
}

/* Without spaces and hyphens, in capitals; "" when it has another length. */
static void tidy(const char *typed, char code[LW_CODE])
{
    size_t used = 0;
    for (; *typed; typed++) {
        if (*typed == ' ' || *typed == '-')
            continue;
        if (used + 1 >= LW_CODE) {
            used = 0;
            break;
        }
        code[used++] = (char)toupper((unsigned char)*typed);
    }
    if (used + 1 != LW_CODE)
        used = 0;
    memset(code + used, 0, LW_CODE - used);
}

static void hash_of(const char *secret, unsigned char hash[LW_DEVICE_HASH])
{
    (void)crypto_generichash(hash, LW_DEVICE_HASH, (const unsigned char *)secret, strlen(secret), NULL, 0);
}

/* A new device in the list; NULL: the list is full. */
static lw_device *add(lw_devices *devices, const char *name, lw_role role, int64_t now_s, int64_t ends_s,
                      char token[LW_TOKEN])
{
    unsigned char random[32];
    char secret[48];
    size_t kept = 0;
    for (size_t i = 0; i < devices->count; i++) /* expired ones make room */
        if (devices->device[i].ends_s > now_s)
            devices->device[kept++] = devices->device[i];
    devices->count = kept;
    if (devices->count == LW_DEVICES)
        return NULL;
    lw_device *device = &devices->device[devices->count++];
    *device = (lw_device){.role = role, .paired_s = now_s, .ends_s = ends_s};
    (void)snprintf(device->name, sizeof device->name, "%s", name);
    randombytes_buf(random, sizeof random);
    (void)sodium_bin2hex(device->id, sizeof device->id, random, (LW_DEVICE_ID - 1) / 2);
    randombytes_buf(random, sizeof random);
    (void)sodium_bin2base64(secret, sizeof secret, random, sizeof random, sodium_base64_VARIANT_URLSAFE_NO_PADDING);
    hash_of(secret, device->hash);
    (void)snprintf(token, LW_TOKEN, "%s.%.43s", device->id, secret);
    sodium_memzero(random, sizeof random);
    sodium_memzero(secret, sizeof secret);
    return device;
}

lw_paired lw_devices_pair(lw_devices *devices, const char *code, const char *name, int64_t now_s, lw_device *device,
                          char token[LW_TOKEN], lw_error *err)
{
    char typed[LW_CODE];
    tidy(code, typed);
    lw_paired result = LW_PAIR_WRONG;
    (void)pthread_mutex_lock(&devices->lock);
    if (!count_try(devices, now_s)) {
        result = LW_PAIR_LOCKED;
    } else if (devices->code[0] && now_s < devices->code_ends_s && sodium_memcmp(devices->code, typed, LW_CODE) == 0) {
        lw_device *paired = add(devices, name, devices->code_role, now_s, now_s + LW_TOKEN_DAYS * day_s, token);
        result = paired ? LW_PAIRED : LW_PAIR_FULL;
        if (paired) {
            *device = *paired;
            right_try(devices);
            close_code(devices);
            if (!lw_devices_save(devices, err)) {
                devices->count--;
                result = LW_PAIR_FAILED;
            }
        }
    } else if (devices->wrong >= LW_WRONG_TRIES) {
        close_code(devices);
    }
    (void)pthread_mutex_unlock(&devices->lock);
    return result;
}

lw_paired lw_devices_owner(lw_devices *devices, const char *passphrase, const char *name, int64_t now_s,
                           lw_device *device, char token[LW_TOKEN], lw_error *err)
{
    char pass[LW_PASS_HASH];
    (void)err;
    (void)pthread_mutex_lock(&devices->lock);
    memcpy(pass, devices->pass, sizeof pass);
    const bool may_try = count_try(devices, now_s);
    (void)pthread_mutex_unlock(&devices->lock);
    if (!may_try)
        return LW_PAIR_LOCKED;
    if (!pass[0] || crypto_pwhash_str_verify(pass, passphrase, strlen(passphrase)) != 0)
        return LW_PAIR_WRONG;
    (void)pthread_mutex_lock(&devices->lock);
    right_try(devices);
    const lw_device *owner = add(devices, name, LW_ROLE_OWNER, now_s, now_s + LW_OWNER_HOURS * hour_s, token);
    if (owner)
        *device = *owner;
    (void)pthread_mutex_unlock(&devices->lock);
    return owner ? LW_PAIRED : LW_PAIR_FULL;
}

bool lw_devices_set_passphrase(lw_devices *devices, const char *passphrase, lw_error *err)
{
    /* Argon2id (RFC 9106): three passes over 32 MiB, within the server's memory */
    const size_t memory = 32U << 20;
    char pass[LW_PASS_HASH] = "";
    if (passphrase[0] &&
        crypto_pwhash_str_alg(pass, passphrase, strlen(passphrase), 3, memory, crypto_pwhash_ALG_ARGON2ID13) != 0)
        return lw_fail(err, LW_STORAGE, "", "Memory is out.");
    (void)pthread_mutex_lock(&devices->lock);
    memcpy(devices->pass, pass, sizeof pass);
    const bool done = lw_devices_save(devices, err);
    (void)pthread_mutex_unlock(&devices->lock);
    return done;
}

bool lw_devices_has_passphrase(lw_devices *devices)
{
    (void)pthread_mutex_lock(&devices->lock);
    const bool has = devices->pass[0] != '\0';
    (void)pthread_mutex_unlock(&devices->lock);
    return has;
}

bool lw_devices_known(lw_devices *devices, const char *token, int64_t now_s, lw_device *device)
{
    const char *point = strchr(token, '.');
    unsigned char hash[LW_DEVICE_HASH];
    if (!point || point - token != LW_DEVICE_ID - 1 || strlen(token) >= LW_TOKEN)
        return false;
    hash_of(point + 1, hash);
    bool known = false;
    (void)pthread_mutex_lock(&devices->lock);
    for (size_t i = 0; i < devices->count; i++) {
        const lw_device *one = &devices->device[i];
        if (strncmp(one->id, token, LW_DEVICE_ID - 1) != 0)
            continue;
        known = sodium_memcmp(one->hash, hash, sizeof hash) == 0 && now_s < one->ends_s;
        if (known)
            *device = *one;
        break;
    }
    (void)pthread_mutex_unlock(&devices->lock);
    return known;
}

bool lw_devices_revoke(lw_devices *devices, const char *id, bool *found, lw_error *err)
{
    bool done = true;
    *found = false;
    (void)pthread_mutex_lock(&devices->lock);
    for (size_t i = 0; i < devices->count && !*found; i++) {
        if (strcmp(devices->device[i].id, id) != 0)
            continue;
        *found = true;
        devices->device[i] = devices->device[--devices->count];
        done = lw_devices_save(devices, err);
    }
    (void)pthread_mutex_unlock(&devices->lock);
    return done;
}

size_t lw_devices_list(lw_devices *devices, int64_t now_s, lw_device out[LW_DEVICES])
{
    size_t count = 0;
    (void)pthread_mutex_lock(&devices->lock);
    for (size_t i = 0; i < devices->count; i++)
        if (devices->device[i].ends_s > now_s)
            out[count++] = devices->device[i];
    (void)pthread_mutex_unlock(&devices->lock);
    return count;
}
