# SPDX-License-Identifier: GPL-3.0-or-later
"""QR codes of a printed PDF, read by zbar."""
import subprocess

DOTS = (300, 400, 250, 350, 200)


def read_codes(path, folder, wanted):
    """The reader looks at a whole page at once and misses a code now and then; a phone sees one label. What it misses at
    300 dots an inch it is shown at others."""
    read = set()
    for dots in DOTS:
        if set(wanted) <= read:
            break
        stem = f"{path.stem}-codes{dots}"
        subprocess.run(["pdftoppm", "-r", str(dots), "-gray", "-png", path, folder / stem], check=True)
        for picture in sorted(folder.glob(f"{stem}*.png")):
            done = subprocess.run(["zbarimg", "--raw", "-q", "-Sdisable", "-Sqrcode.enable", picture],
                                  capture_output=True, text=True)  # 4 where a picture holds no code
            read |= set(done.stdout.split())
            picture.unlink()
    return read
