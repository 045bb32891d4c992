"""The built program as a service in a folder, and what a form sends to it: shared by `faults.py` and `load.py`."""

import copy
import hashlib
import http.client
import json
import os
import pathlib
import sqlite3
import subprocess
import threading
import time

DRAWINGS = pathlib.Path(__file__).parent / "../../src/service/demo/drawings"
# What a start may take on a busy machine; nothing is concluded from how long it took.
STARTS = 120


class Lost(Exception):
    """No answer: the service was gone, or the connection."""


def with_filler(picture, length):
    """A JPEG of so many bytes that shows the same: its picture is followed by nothing, so what fills it are restart-free copies of a table."""
    table = picture.index(b"\xff\xdb", 20)  # after the JFIF header, whose density may look like one
    size = 2 + int.from_bytes(picture[table + 2 : table + 4], "big")
    segment = picture[table : table + size]
    copies = max(0, (length - len(picture)) // size)
    return picture[:table] + segment * copies + picture[table:]


class Made:
    """A setup of an invented installer, and records for it."""

    def __init__(self, program, folder):
        self.program, self.setup = program, folder / "setup.json"
        subprocess.run(
            [program, "setup", "name=Invented", "legal=Invented", "telephone=01632 960000", "hour=£50", "socket=£400", "--out", self.setup],
            check=True,
            stdout=subprocess.DEVNULL,
        )
        setup = json.loads(self.setup.read_text())
        setup["enquiries_a_day"] = 2**32 - 1
        self.setup.write_text(json.dumps(setup))
        self.installer = setup["installer"]["id"]
        demo = Service(program, folder / "demo", ["--demo"])
        demo.end()
        with sqlite3.connect(folder / "demo/presurvey.sqlite") as kept:
            self.record = json.loads(kept.execute("SELECT record FROM enquiries ORDER BY length(record) DESC").fetchone()[0])
        self.picture = (DRAWINGS / "head-plain.jpg").read_bytes()

    def key(self, *parts):
        return hashlib.sha256(repr(parts).encode()).hexdigest()[:32]

    def photo(self, number, length=0):
        # Another density in the JFIF header: other bytes, the same pixels.
        picture = bytearray(self.picture)
        picture[14:18] = number.to_bytes(2, "big") * 2
        return with_filler(bytes(picture), length)

    def enquiry(self, key, photos=()):
        record = copy.deepcopy(self.record)
        record["envelope"] |= {"installer": self.installer, "client_key": key, "photo_sizes": [len(photo) for photo in photos]}
        record["payload"]["photos"] = [
            {"sha256": hashlib.sha256(photo).hexdigest(), "place": "meter", "width": 640, "height": 480} for photo in photos
        ]
        return json.dumps(record).encode()


class Service:
    def __init__(self, program, data, more, by=(), env=None):
        self.log = pathlib.Path(f"{data}.log")
        if "--demo" not in more and not pathlib.Path(data).exists():
            password = [program, "password", "--data", data]
            subprocess.run(password, input="an invented password", text=True, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        self.running = subprocess.Popen(
            [*by, program, "serve", "--listen", "127.0.0.1:0", "--data", data, *more],
            stdout=subprocess.PIPE,
            stderr=self.log.open("ab"),
            env={**os.environ, "RUST_LOG": "warn", **(env or {})},
            text=True,
        )
        first = self.running.stdout.readline()
        assert first.startswith("homeowner's page: "), self.log.read_text()[-2000:]
        host, self.port = first.strip().removeprefix("homeowner's page: http://").rstrip("/").split(":")
        threading.Thread(target=self.running.stdout.read, daemon=True).start()

    def ask(self, method, path, body=b"", kind="application/json", connection=None):
        """The status and the JSON of the answer."""
        own = connection is None
        connection = connection or http.client.HTTPConnection("127.0.0.1", int(self.port), timeout=STARTS)
        try:
            connection.request(method, path, body, {"Content-Type": kind})
            answered = connection.getresponse()
            said = answered.read()
        except (OSError, http.client.HTTPException) as why:
            connection.close()
            raise Lost from why
        if own:
            connection.close()
        try:
            return answered.status, json.loads(said or b"null")
        except ValueError:
            return answered.status, None

    def kill(self):
        self.running.kill()
        self.running.wait()

    def end(self):
        self.running.terminate()
        self.running.wait()

    def memory(self):
        """What the process holds of memory, in bytes."""
        said = pathlib.Path(f"/proc/{self.running.pid}/status").read_text()
        return int(said.split("VmRSS:")[1].split()[0]) * 1024


class Acknowledged:
    """What the service said that it has: the reference of each enquiry by its key, and photos."""

    def __init__(self):
        self.lock, self.references, self.photos, self.sent, self.refused, self.changed, self.last = threading.Lock(), {}, set(), set(), 0, 0, None
        self.received = {}

    def send(self, service, made, key, photos=(), **how):
        """Sends an enquiry with photos. Returns whether all of it was acknowledged."""
        with self.lock:
            self.sent.add(key)
        status, said = service.ask("POST", "/api/enquiries", made.enquiry(key, photos), **how)
        if status not in (200, 201):
            with self.lock:
                self.refused, self.last = self.refused + 1, (status, said)
            return False
        with self.lock:
            if self.references.setdefault(key, said["reference"]) != said["reference"]:
                self.changed += 1
            self.received.setdefault(key, said["received"])
        for photo in photos:
            name = hashlib.sha256(photo).hexdigest()
            status, said = service.ask("PUT", f"/api/enquiries/{key}/photos/{name}", photo, "image/jpeg", **how)
            if status != 204:
                with self.lock:
                    self.refused, self.last = self.refused + 1, (status, said)
                return False
            with self.lock:
                self.photos.add((key, name))
        return True

    def held_against(self, data):
        """What is there, beside what was acknowledged."""
        kept = sqlite3.connect(f"file:{data}/presurvey.sqlite?mode=ro", uri=True)
        assert kept.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        rows = kept.execute("SELECT client_key, reference FROM enquiries").fetchall()
        marked = set(kept.execute("SELECT client_key, sha256 FROM photos WHERE kind IS NOT NULL").fetchall())
        kept.close()
        there = dict(rows)
        whole = 0
        for key, name in self.photos:
            file = pathlib.Path(data) / "photos" / key / name
            whole += (key, name) in marked and file.is_file() and hashlib.sha256(file.read_bytes()).hexdigest() == name
        return {
            "acknowledged": len(self.references),
            "of them there": sum(there.get(key) == reference for key, reference in self.references.items()),
            "there in all": len(rows),
            "twice": len(rows) - len(there),
            "never sent": len(set(there) - self.sent),
            "photos acknowledged": len(self.photos),
            "of them there whole": whole,
            "references that changed": self.changed,
        }


def in_parallel(many, work):
    """Runs `work(number)` so many times beside each other."""
    threads = [threading.Thread(target=work, args=(number,)) for number in range(many)]
    for thread in threads:
        thread.start()
    return threads


def until(done, seconds=STARTS):
    """Waits until something holds."""
    end = time.monotonic() + seconds
    while not done():
        assert time.monotonic() < end, "it never came about"
        time.sleep(0.02)
