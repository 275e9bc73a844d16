/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Root and server certificates: see certificates.h. Keys are on the curve P-256, signatures ECDSA with SHA-256: what
 * every phone of the last ten years understands.
 */
#include "certificates.h"

#include "keep.h"

#include <arpa/inet.h>
#include <gnutls/crypto.h>
#include <gnutls/gnutls.h>
#include <gnutls/x509-ext.h>
#include <gnutls/x509.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const int64_t day_s = 86400;
enum { ROOT_DAYS = 3650, LEAF_DAYS = 365, RENEW_DAYS = 30 };

/* A certificate with its key, while they are in use. */
typedef struct pair {
    gnutls_x509_crt_t certificate;
    gnutls_x509_privkey_t key;
} pair;

static bool begin(pair *p, lw_error *err)
{
    *p = (pair){0};
    return (gnutls_x509_crt_init(&p->certificate) == 0 && gnutls_x509_privkey_init(&p->key) == 0) ||
           lw_fail(err, LW_STORAGE, "", "Memory is out.");
}

static void end(pair *p)
{
    if (p->certificate)
        gnutls_x509_crt_deinit(p->certificate);
    if (p->key)
        gnutls_x509_privkey_deinit(p->key);
}

static bool made(int code, lw_error *err)
{
    return code >= 0 || lw_fail(err, LW_STORAGE, "", "A certificate could not be made: %s.", gnutls_strerror(code));
}

/* New key, random serial number, validity from a day ago (clocks of phones go wrong). */
static bool set_common(const pair *p, const char *name, int64_t now_s, int days, lw_error *err)
{
    unsigned char serial[16], id[32];
    size_t id_size = sizeof id;
    if (!made(gnutls_rnd(GNUTLS_RND_NONCE, serial, sizeof serial), err))
        return false;
    serial[0] &= 0x7F; /* positive (RFC 5280, 4.1.2.2) */
    serial[0] |= 0x40;
    return made(gnutls_x509_privkey_generate(p->key, GNUTLS_PK_ECDSA, GNUTLS_CURVE_TO_BITS(GNUTLS_ECC_CURVE_SECP256R1),
                                             0),
                err) &&
           made(gnutls_x509_crt_set_version(p->certificate, 3), err) &&
           made(gnutls_x509_crt_set_key(p->certificate, p->key), err) &&
           made(gnutls_x509_crt_set_serial(p->certificate, serial, sizeof serial), err) &&
           made(gnutls_x509_crt_set_activation_time(p->certificate, (time_t)(now_s - day_s)), err) &&
           made(gnutls_x509_crt_set_expiration_time(p->certificate, (time_t)(now_s + days * day_s)), err) &&
           made(gnutls_x509_crt_set_dn_by_oid(p->certificate, GNUTLS_OID_X520_COMMON_NAME, 0, name,
                                              (unsigned)strlen(name)),
                err) &&
           made(gnutls_x509_crt_get_key_id(p->certificate, GNUTLS_KEYID_USE_SHA256, id, &id_size), err) &&
           made(gnutls_x509_crt_set_subject_key_id(p->certificate, id, id_size), err);
}

static bool constrain(gnutls_x509_crt_t certificate, lw_error *err)
{
    static const char *const ranges[] = {"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16",
                                         "127.0.0.0/8"};
    static const char *const names[] = {"local", "localhost"};
    gnutls_x509_name_constraints_t allowed;
    if (!made(gnutls_x509_name_constraints_init(&allowed), err))
        return false;
    bool well = true;
    for (size_t i = 0; well && i < sizeof ranges / sizeof ranges[0]; i++) {
        gnutls_datum_t range = {0};
        well = made(gnutls_x509_cidr_to_rfc5280(ranges[i], &range), err) &&
               made(gnutls_x509_name_constraints_add_permitted(allowed, GNUTLS_SAN_IPADDRESS, &range), err);
        gnutls_free(range.data);
    }
    for (size_t i = 0; well && i < sizeof names / sizeof names[0]; i++) {
        unsigned char copy[16];
        memcpy(copy, names[i], strlen(names[i]) + 1);
        const gnutls_datum_t name = {copy, (unsigned)strlen(names[i])};
        well = made(gnutls_x509_name_constraints_add_permitted(allowed, GNUTLS_SAN_DNSNAME, &name), err);
    }
    well = well && made(gnutls_x509_crt_set_name_constraints(certificate, allowed, 1), err);
    gnutls_x509_name_constraints_deinit(allowed);
    return well;
}

static bool make_root(const pair *root, int64_t now_s, lw_error *err)
{
    char host[48] = "", name[64];
    (void)gethostname(host, sizeof host - 1);
    (void)snprintf(name, sizeof name, "lanewick workshop %.40s", host);
    return set_common(root, name, now_s, ROOT_DAYS, err) &&
           made(gnutls_x509_crt_set_basic_constraints(root->certificate, 1, 0), err) &&
           made(gnutls_x509_crt_set_key_usage(root->certificate, GNUTLS_KEY_KEY_CERT_SIGN | GNUTLS_KEY_CRL_SIGN),
                err) &&
           constrain(root->certificate, err) &&
           made(gnutls_x509_crt_sign2(root->certificate, root->certificate, root->key, GNUTLS_DIG_SHA256, 0), err);
}

static bool add_names(gnutls_x509_crt_t leaf, const lw_addresses *addresses, lw_error *err)
{
    char host[48] = "", local[64];
    (void)gethostname(host, sizeof host - 1);
    (void)snprintf(local, sizeof local, "%s.local", host);
    bool well =
        made(gnutls_x509_crt_set_subject_alt_name(leaf, GNUTLS_SAN_DNSNAME, "localhost", 9, GNUTLS_FSAN_SET), err) &&
        made(gnutls_x509_crt_set_subject_alt_name(leaf, GNUTLS_SAN_DNSNAME, local, (unsigned)strlen(local),
                                                  GNUTLS_FSAN_APPEND),
             err);
    for (size_t i = 0; well && i <= addresses->count; i++) {
        struct in_addr address;
        (void)inet_pton(AF_INET, i < addresses->count ? addresses->text[i] : "127.0.0.1", &address);
        well = made(gnutls_x509_crt_set_subject_alt_name(leaf, GNUTLS_SAN_IPADDRESS, &address, sizeof address,
                                                         GNUTLS_FSAN_APPEND),
                    err);
    }
    return well;
}

static bool make_leaf(const pair *leaf, const pair *root, const lw_addresses *addresses, int64_t now_s, lw_error *err)
{
    unsigned char id[32];
    size_t id_size = sizeof id;
    return set_common(leaf, "lanewick server", now_s, LEAF_DAYS, err) &&
           made(gnutls_x509_crt_set_basic_constraints(leaf->certificate, 0, -1), err) &&
           made(gnutls_x509_crt_set_key_usage(leaf->certificate, GNUTLS_KEY_DIGITAL_SIGNATURE), err) &&
           made(gnutls_x509_crt_set_key_purpose_oid(leaf->certificate, GNUTLS_KP_TLS_WWW_SERVER, 0), err) &&
           made(gnutls_x509_crt_get_subject_key_id(root->certificate, id, &id_size, NULL), err) &&
           made(gnutls_x509_crt_set_authority_key_id(leaf->certificate, id, id_size), err) &&
           add_names(leaf->certificate, addresses, err) &&
           made(gnutls_x509_crt_sign2(leaf->certificate, root->certificate, root->key, GNUTLS_DIG_SHA256, 0), err);
}

/* From the folder; *there false when one of the two files is missing. */
static bool load(const char *folder, const char *name, const pair *p, bool *there, lw_error *err)
{
    char file[16], *certificate = NULL, *key = NULL;
    (void)snprintf(file, sizeof file, "%s.crt", name);
    bool well = lw_keep_read(folder, file, &certificate, err);
    (void)snprintf(file, sizeof file, "%s.key", name);
    well = well && lw_keep_read(folder, file, &key, err);
    *there = well && certificate && key;
    if (*there) {
        const gnutls_datum_t crt = {(unsigned char *)certificate, (unsigned)strlen(certificate)};
        const gnutls_datum_t secret = {(unsigned char *)key, (unsigned)strlen(key)};
        well =
            (gnutls_x509_crt_import(p->certificate, &crt, GNUTLS_X509_FMT_PEM) == 0 &&
             gnutls_x509_privkey_import(p->key, &secret, GNUTLS_X509_FMT_PEM) == 0) ||
            lw_fail(err, LW_STORAGE, file, "%.200s/%s.crt or .key is damaged; put a copy of both back.", folder, name);
    }
    free(certificate);
    if (key)
        gnutls_memset(key, 0, strlen(key));
    free(key);
    return well;
}

static bool to_text(const pair *p, char certificate[LW_PEM_BYTES], char key[LW_PEM_BYTES], lw_error *err)
{
    size_t size = LW_PEM_BYTES - 1, key_size = LW_PEM_BYTES - 1;
    memset(certificate, 0, LW_PEM_BYTES);
    memset(key, 0, LW_PEM_BYTES);
    return made(gnutls_x509_crt_export(p->certificate, GNUTLS_X509_FMT_PEM, certificate, &size), err) &&
           made(gnutls_x509_privkey_export_pkcs8(p->key, GNUTLS_X509_FMT_PEM, NULL, GNUTLS_PKCS_PLAIN, key, &key_size),
                err);
}

static bool keep(const char *folder, const char *name, const pair *p, lw_error *err)
{
    char file[16], certificate[LW_PEM_BYTES], key[LW_PEM_BYTES];
    bool well = to_text(p, certificate, key, err);
    (void)snprintf(file, sizeof file, "%s.key", name);
    well = well && lw_keep_write(folder, file, key, err);
    (void)snprintf(file, sizeof file, "%s.crt", name);
    well = well && lw_keep_write(folder, file, certificate, err);
    gnutls_memset(key, 0, sizeof key);
    return well;
}

/* The leaf is signed by this root, has time left and every address. */
static bool leaf_serves(const pair *leaf, const pair *root, const lw_addresses *addresses, int64_t now_s)
{
    unsigned found = 0;
    if ((int64_t)gnutls_x509_crt_get_expiration_time(leaf->certificate) < now_s + RENEW_DAYS * day_s ||
        (int64_t)gnutls_x509_crt_get_activation_time(leaf->certificate) > now_s ||
        gnutls_x509_crt_verify(leaf->certificate, &root->certificate, 1, 0, &found) != 0 || found != 0)
        return false;
    bool serves = true;
    for (size_t i = 0; serves && i < addresses->count; i++)
        serves = gnutls_x509_crt_check_hostname(leaf->certificate, addresses->text[i]) != 0;
    return serves;
}

static bool fingerprint(const pair *root, char out[96], lw_error *err)
{
    unsigned char hash[32];
    size_t size = sizeof hash;
    if (!made(gnutls_x509_crt_get_fingerprint(root->certificate, GNUTLS_DIG_SHA256, hash, &size), err))
        return false;
    for (size_t i = 0; i < sizeof hash; i++)
        (void)snprintf(out + 3 * i, 4, "%02X%s", hash[i], i + 1 < sizeof hash ? ":" : "");
    return true;
}

static bool ready(const char *folder, const lw_addresses *addresses, int64_t now_s, pair *root, pair *leaf,
                  lw_certificates *out, lw_error *err)
{
    bool there = false;
    char root_key[LW_PEM_BYTES];
    if (!load(folder, "root", root, &there, err) ||
        (!there && (!make_root(root, now_s, err) || !keep(folder, "root", root, err))) ||
        !load(folder, "leaf", leaf, &there, err))
        return false;
    if (!there || !leaf_serves(leaf, root, addresses, now_s)) {
        end(leaf);
        if (!begin(leaf, err) || !make_leaf(leaf, root, addresses, now_s, err) || !keep(folder, "leaf", leaf, err))
            return false;
    }
    const bool well = to_text(root, out->root, root_key, err) && to_text(leaf, out->leaf, out->leaf_key, err);
    gnutls_memset(root_key, 0, sizeof root_key);
    out->leaf_ends_s = (int64_t)gnutls_x509_crt_get_expiration_time(leaf->certificate);
    return well && fingerprint(root, out->fingerprint, err);
}

bool lw_certificates_ready(const char *folder, const lw_addresses *addresses, int64_t now_s, lw_certificates *out,
                           lw_error *err)
{
    pair root = {0}, leaf = {0};
    const bool done = lw_keep_open(folder, err) && begin(&root, err) && begin(&leaf, err) &&
                      ready(folder, addresses, now_s, &root, &leaf, out, err);
    end(&root);
    end(&leaf);
    return done;
}
