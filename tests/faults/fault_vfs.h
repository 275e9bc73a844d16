/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file layer for SQLite that forwards to the usual one and fails when it is told to.
 */
#ifndef LANEWICK_TESTS_FAULT_VFS_H
#define LANEWICK_TESTS_FAULT_VFS_H

typedef struct fault_plan {
    long writes, syncs; /* so far */
    long bytes;         /* written so far */
    long fail_write;    /* this write fails and all after it; 0: none */
    long fail_sync;     /* this sync alone fails; 0: none */
    long disk_bytes;    /* writes beyond it find the disk full; 0: no limit */
} fault_plan;

extern fault_plan fault;
/* Registers the layer under the name "fault". */
void fault_vfs_register(void);

#endif
