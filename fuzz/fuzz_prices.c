/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reader of price lists: any bytes give lines whose true cost can be counted, or an error.
 */
#include "lanewick/prices.h"

#include <stdlib.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

static void read_rows(const lw_prices_table *table)
{
    for (size_t row = 0; row < table->csv.rows; row++) {
        char name[LW_PRICE_NAME];
        bool priced;
        lw_error err = {0};
        lw_price price = lw_price_blank("");
        if (!lw_prices_name(table, row, name, &err) || !lw_prices_row(table, row, 2, &price, &priced, &err)) {
            if (err.message[0] == '\0')
                abort();
        } else if (price.price_minor < 0 || price.sold_by < 1 || price.loss_pm > LW_PRICE_LOSS ||
                   lw_price_true_minor(&price, lw_price_max_minor) < price.price_minor) {
            abort();
        }
    }
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    const char *bytes = (const char *)data;
    const size_t room = lw_csv_memory(bytes, size);
    void *memory = room ? malloc(room) : NULL;
    if (!memory)
        return 0;
    lw_arena arena = lw_arena_over(memory, room);
    lw_prices_table table;
    lw_error err = {0};
    if (lw_prices_open(bytes, size, &arena, &table, &err))
        read_rows(&table);
    free(memory);
    return 0;
}
