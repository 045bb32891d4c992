#!/usr/bin/env python3
"""What is acknowledged is there, whatever goes wrong: killed, no room, locked, cut off, clocks, copies, two at once.

    python faults.py PROGRAM            all of it, as root (a small disk is mounted); prints a table row for each
    python faults.py PROGRAM NAME...    these alone

PROGRAM is the built `presurvey`; `clock` needs one that is linked dynamically, and faketime. Short forms of some stand in `tests/service`; what
the long run counted once is in `tests/results/faults.md`. When something is done is drawn the same each time, what meets it is not.
"""

import hashlib
import pathlib
import random
import socket
import sqlite3
import struct
import subprocess
import sys
import tempfile
import time
from datetime import date

from served import Acknowledged, Lost, Made, Service, in_parallel, until

SENDERS = 4


class Load:
    """Senders that send enquiries one after the other, every second one with a photo, to whatever service there is."""

    def __init__(self, made, services, name):
        self.made, self.services, self.name = made, services, name
        self.acknowledged, self.going, self.lost = Acknowledged(), True, 0
        self.threads = in_parallel(SENDERS, self.send)

    def send(self, sender):
        number = 0
        while self.going:
            number += 1
            key = self.made.key(self.name, sender, number)
            photos = [self.made.photo(number % 60_000)] if number % 2 else []
            while self.going:
                # The same again, as a form does, until it is acknowledged.
                try:
                    if self.acknowledged.send(self.services[number % len(self.services)], self.made, key, photos):
                        break
                except Lost:
                    self.lost += 1
                time.sleep(0.01)

    def end(self):
        self.going = False
        for thread in self.threads:
            thread.join()

    def there(self, most):
        return len(self.acknowledged.references) >= most


def killed(made, folder, chance):
    """Killed 100 times (SIGKILL) while four senders send."""
    data, more = folder / "killed", ["--setup", made.setup]
    services = [Service(made.program, data, more)]
    load = Load(made, services, "killed")
    for _ in range(100):
        before = len(load.acknowledged.references)
        until(lambda: load.there(before + 3))
        time.sleep(chance.uniform(0, 0.2))
        services[0].kill()
        services[0] = Service(made.program, data, more)
    before = len(load.acknowledged.references)
    until(lambda: load.there(before + 3))
    load.end()
    services[0].end()
    return load.acknowledged.held_against(data) | {"kills": 100, "broken off": load.lost}


def full(made, folder, chance):
    """A disk that is full and freed 20 times."""
    disk = folder / "disk"
    disk.mkdir()
    subprocess.run(["mount", "-t", "tmpfs", "-o", "size=24m", "tmpfs", disk], check=True)
    try:
        services = [Service(made.program, disk / "data", ["--setup", made.setup])]
        load = Load(made, services, "full")
        for _ in range(20):
            refused = load.acknowledged.refused
            with (disk / "filler").open("wb", buffering=0) as filler:
                # What the journal gives back is filled again, to the last byte.
                while load.acknowledged.refused < refused + 20:
                    for piece in (65536, 512, 1):
                        try:
                            while load.acknowledged.refused < refused + 20 and filler.write(b"x" * piece):
                                pass
                        except OSError:
                            time.sleep(0.01)
            (disk / "filler").unlink()
            before = len(load.acknowledged.references)
            until(lambda: load.there(before + 5))
        load.end()
        return load.acknowledged.held_against(disk / "data") | {"times full": 20, "refused": load.acknowledged.refused}
    finally:
        services[0].end()
        subprocess.run(["umount", disk], check=True)


def locked(made, folder, chance):
    """A database that another process locks 20 times, for one second and for eight by turns."""
    data = folder / "locked"
    services = [Service(made.program, data, ["--setup", made.setup])]
    load = Load(made, services, "locked")
    for turn in range(20):
        before = len(load.acknowledged.references)
        until(lambda: load.there(before + 5))
        other = sqlite3.connect(data / "presurvey.sqlite", timeout=60, isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        time.sleep(1 if turn % 2 else 8)
        other.execute("ROLLBACK")
        other.close()
    before = len(load.acknowledged.references)
    until(lambda: load.there(before + 5))
    load.end()
    services[0].end()
    return load.acknowledged.held_against(data) | {"times locked": 20, "refused": load.acknowledged.refused}


def cut(made, folder, chance):
    """500 uploads that are cut off at a byte by chance, records and photos by turns, and sent again."""
    data = folder / "cut"
    service, acknowledged = Service(made.program, data, ["--setup", made.setup]), Acknowledged()
    half = 0
    for number in range(500):
        key, photo = made.key("cut", number), made.photo(number + 1)
        body, path = made.enquiry(key, [photo]), "POST /api/enquiries"
        if number % 2 == 0:
            status, _ = service.ask("POST", "/api/enquiries", body)
            assert status == 201, status
            acknowledged.sent.add(key)
            body, path = photo, f"PUT /api/enquiries/{key}/photos/{hashlib.sha256(photo).hexdigest()}"
        kind = "application/json" if number % 2 else "image/jpeg"
        whole = f"{path} HTTP/1.1\r\nHost: a\r\nContent-Type: {kind}\r\nContent-Length: {len(body)}\r\n\r\n".encode() + body
        with socket.create_connection(("127.0.0.1", int(service.port))) as line:
            line.sendall(whole[: chance.randrange(1, len(whole))])
            if chance.random() < 0.5:
                line.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))  # a reset rather than an end
        kept = sqlite3.connect(f"file:{data}/presurvey.sqlite?mode=ro", uri=True)
        if number % 2:
            half += kept.execute("SELECT count(*) FROM enquiries WHERE client_key = ?", (key,)).fetchone()[0]
        else:
            half += kept.execute("SELECT count(*) FROM photos WHERE client_key = ? AND kind IS NOT NULL", (key,)).fetchone()[0]
        kept.close()
        assert acknowledged.send(service, made, key, [photo])
    arriving = data / "photos/.arriving"
    until(lambda: not arriving.exists() or not any(arriving.iterdir()))
    service.end()
    return acknowledged.held_against(data) | {"cut off": 500, "half kept": half}


def clock(made, folder, chance):
    """A clock that jumps ten years ahead, forty back and home again while the service runs, which starts anew at each."""
    data, says = folder / "clock", folder / "says"
    library = next(pathlib.Path("/usr/lib").glob("**/libfaketimeMT.so.1"))
    env = {"LD_PRELOAD": str(library), "FAKETIME_TIMESTAMP_FILE": str(says), "FAKETIME_NO_CACHE": "1", "FAKETIME_DONT_FAKE_MONOTONIC": "1"}
    acknowledged, number, jumps = Acknowledged(), 0, 0
    for offset in ["+0d", "+10y", "+0d", "-30y", "+0d", "+10y", "-30y", "+0d"]:
        for start in range(2):
            says.write_text(offset)
            service = Service(made.program, data, ["--setup", made.setup], env=env)
            for at in range(15):
                if at == 10:  # and while it runs
                    says.write_text("+3y" if start else "-3y")
                number += 1
                key = made.key("clock", number)
                # A photo that comes while the clock jumps may look old, and be asked for again.
                until(lambda: acknowledged.send(service, made, key, [made.photo(number)]))
            jumps += 2
            service.end()
    # What came in while the clock was years behind was to be kept until a day that is long past.
    behind = {key for key, received in acknowledged.received.items() if received < str(date.today().year - 1)}
    with sqlite3.connect(f"file:{data}/presurvey.sqlite?mode=ro", uri=True) as kept:
        there = {key for (key,) in kept.execute("SELECT client_key FROM enquiries")}
    gone = behind - there
    for key in gone:
        del acknowledged.references[key]
    acknowledged.photos = {(key, name) for key, name in acknowledged.photos if key not in gone}
    return acknowledged.held_against(data) | {"jumps": jumps, "sent again": acknowledged.refused, "received years behind": len(behind), "of them gone as their day is past": len(gone)}


def copies(made, folder, chance):
    """Ten backups made under load, each brought back and started: what was acknowledged before it began is in it."""
    data = folder / "copies"
    services = [Service(made.program, data, ["--setup", made.setup])]
    load, missing, photos = Load(made, services, "copies"), 0, 0
    for number in range(10):
        before = len(load.acknowledged.references)
        until(lambda: load.there(before + 20))
        then = Acknowledged()
        with load.acknowledged.lock:
            then.references, then.photos = dict(load.acknowledged.references), set(load.acknowledged.photos)
        copy, back = folder / f"copy-{number}", folder / f"back-{number}"
        subprocess.run([made.program, "backup", "--data", data, "--to", copy], check=True, stdout=subprocess.DEVNULL)
        subprocess.run([made.program, "restore", "--from", copy, "--data", back], check=True, stdout=subprocess.DEVNULL)
        service = Service(made.program, back, ["--setup", made.setup])
        new = made.key("after", number)
        assert then.send(service, made, new)
        service.end()
        held = then.held_against(back)
        missing += held["acknowledged"] - held["of them there"] + held["twice"]
        photos += held["photos acknowledged"] - held["of them there whole"]
    load.end()
    services[0].end()
    return load.acknowledged.held_against(data) | {"copies": 10, "missing in copies": missing, "photos missing in copies": photos}


def two(made, folder, chance):
    """Two services on one folder, each key sent to both at once by eight senders; one is killed and started 20 times."""
    data, more = folder / "two", ["--setup", made.setup]
    services = [Service(made.program, data, more) for _ in range(2)]
    first = Load(made, services, "two")
    second = Load(made, services[::-1], "two")  # the same keys
    for _ in range(20):
        before = len(first.acknowledged.references)
        until(lambda: first.there(before + 5))
        services[1].kill()
        services[1] = second.services[0] = first.services[1] = Service(made.program, data, more)
    first.end()
    second.end()
    for service in services:
        service.end()
    differ = sum(second.acknowledged.references.get(key, reference) != reference for key, reference in first.acknowledged.references.items())
    both = Acknowledged()
    both.references = first.acknowledged.references | second.acknowledged.references
    both.photos = first.acknowledged.photos | second.acknowledged.photos
    both.sent = first.acknowledged.sent | second.acknowledged.sent
    return both.held_against(data) | {"kills": 20, "told another reference": differ}


FAULTS = {work.__name__: work for work in (killed, full, locked, cut, clock, copies, two)}
# Of each count, what makes it a failure.
NOTHING = ("twice", "never sent", "references that changed", "half kept", "missing in copies", "photos missing in copies", "told another reference")


def main():
    program, names = pathlib.Path(sys.argv[1]).absolute(), sys.argv[2:] or list(FAULTS)
    wrong = False
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        made = Made(program, folder)
        for name in names:
            counts = FAULTS[name](made, folder, random.Random(name))
            bad = [word for word in NOTHING if counts.get(word)]
            bad += ["lost"] if counts["of them there"] != counts["acknowledged"] else []
            bad += ["photos lost"] if counts["of them there whole"] != counts["photos acknowledged"] else []
            wrong |= bool(bad)
            said = ", ".join(f"{word} {count}" for word, count in counts.items())
            print(f"| {FAULTS[name].__doc__} | {said} | {'; '.join(bad) or 'nothing lost'} |", flush=True)
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
