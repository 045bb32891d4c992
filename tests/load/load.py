#!/usr/bin/env python3
"""How many enquiries the service takes, beside what the machine's disk and its processors can do.

    python load.py PROGRAM              the whole; prints a table in Markdown
    python load.py PROGRAM SECONDS MANY for so many seconds each, and so many enquiries for the memory

PROGRAM is the built `presurvey`, optimised. Eight senders send enquiries for a while, without photos and with four of 300 kB each, each one over
a connection that is kept. In the same run it is measured how often a second a file of an enquiry's size is written durably in the same folder by
one writer, and one of a photo's by eight, and how often the engine assesses the same home on all processors: the ratio to the lowest of them is
worth reading, the numbers themselves are not. (Several rows may share one flush, so that it may be above one.) Then so many enquiries, one after the other, with what the process holds of
memory. Nothing else should run. The senders are processes of their own, so that they are not the limit.
"""

import hashlib
import http.client
import json
import os
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from multiprocessing import Process, Queue

from served import Acknowledged, Made, Service

SENDERS = 8
PHOTO = 300_000  # bytes: what the form makes of a photo of a telephone, about


def durable_writes(folder, seconds, bytes_each, writers):
    """How often a second files are appended to and flushed to the disk, by so many writers with a file each."""
    piece, end = os.urandom(bytes_each), time.monotonic() + seconds

    def written(number):
        many, name = 0, folder / f"written-{number}"
        with name.open("wb") as file:
            while time.monotonic() < end:
                file.write(piece)
                file.flush()
                os.fdatasync(file.fileno())
                many += 1
        name.unlink()
        return many

    with ThreadPoolExecutor(writers) as together:
        return sum(together.map(written, range(writers))) / seconds


def assessed(made, many):
    """How often a second the engine assesses the answers that are sent, on all processors: the program started so often with them and without."""
    answers = json.dumps(made.record["payload"]["answers"])

    def took(*words):
        begun = time.monotonic()
        with ThreadPoolExecutor(os.cpu_count()) as processors:
            run = lambda _: subprocess.run([made.program, *words], input=answers, text=True, stdout=subprocess.DEVNULL, check=True)
            list(processors.map(run, range(many)))
        return time.monotonic() - begun

    return many / max(took("assess", "-") - took("--version"), 1e-9)


def sender(made, port, name, number, seconds, photos, told):
    service = Service.__new__(Service)
    service.port, took, many = port, [], 0
    line = http.client.HTTPConnection("127.0.0.1", int(port), timeout=600)
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        many += 1
        key = made.key(name, number, many)
        pictures = [made.photo((number * 7919 + many * 4 + at) % 60_000, PHOTO) for at in range(photos)]
        acknowledged = Acknowledged()
        body, names = made.enquiry(key, pictures), [hashlib.sha256(picture).hexdigest() for picture in pictures]
        begun = time.monotonic()
        status, _ = service.ask("POST", "/api/enquiries", body, connection=line)
        assert status == 201, status
        for picture, named in zip(pictures, names):
            status, said = service.ask("PUT", f"/api/enquiries/{key}/photos/{named}", picture, "image/jpeg", connection=line)
            assert status == 204, (status, said)
        took.append(time.monotonic() - begun)
    told.put(took)


def under_load(made, folder, name, seconds, photos):
    service = Service(made.program, folder / name, ["--setup", made.setup])
    told = Queue()
    senders = [Process(target=sender, args=(made, service.port, name, number, seconds, photos, told)) for number in range(SENDERS)]
    for one in senders:
        one.start()
    took = sorted(one for _ in senders for one in told.get())
    for one in senders:
        one.join()
    memory = service.memory()
    service.end()
    return len(took) / seconds, statistics.median(took), took[len(took) * 99 // 100], memory


def memory_over(made, folder, many):
    service = Service(made.program, folder / "memory", ["--setup", made.setup])
    line, held = http.client.HTTPConnection("127.0.0.1", int(service.port), timeout=600), []
    for number in range(many):
        status, _ = service.ask("POST", "/api/enquiries", made.enquiry(made.key("memory", number)), connection=line)
        assert status == 201, status
        if (number + 1) % (many // 10) == 0:
            held.append(service.memory())
    service.end()
    return held


def main():
    program = pathlib.Path(sys.argv[1]).absolute()
    seconds, many = (int(sys.argv[2]), int(sys.argv[3])) if len(sys.argv) > 3 else (30, 20_000)
    with tempfile.TemporaryDirectory(dir=os.environ.get("PRESURVEY_DISK")) as folder:
        folder = pathlib.Path(folder)
        made = Made(program, folder)
        size = len(made.enquiry(made.key("size")))
        # One connection writes rows, one after the other; photos are flushed beside each other.
        rows = durable_writes(folder, seconds / 3, size, 1)
        files = durable_writes(folder, seconds / 3, PHOTO, SENDERS)
        engine = assessed(made, 40 * seconds)
        print(
            f"An enquiry has {size} bytes. A second: {rows:.0f} durable writes of an enquiry, one after the other; {files:.0f} of a photo, by "
            f"{SENDERS} writers; {engine:.0f} assessments on all processors."
        )
        print("| what | enquiries a second | p50 ms | p99 ms | what the machine can do | share of that | memory after MB |")
        print("| --- | ---: | ---: | ---: | ---: | ---: | ---: |")
        for name, with_photos in (("without photos", 0), ("with four photos", 4)):
            rate, middle, late, memory = under_load(made, folder, name, seconds, with_photos)
            # A row for the enquiry and one for each photo; each photo a file, flushed beside others.
            disk = min(rows / (1 + with_photos), files / with_photos if with_photos else rows)
            most = min(disk, engine)
            which = "disk" if disk < engine else "engine"
            print(
                f"| {name} | {rate:.1f} | {middle * 1000:.1f} | {late * 1000:.1f} | {most:.0f} ({which}) | {rate / most:.2f} "
                f"| {memory / 1e6:.0f} |",
                flush=True,
            )
        held = memory_over(made, folder, many) if many else []
        print(f"Memory over {many} enquiries, MB at each tenth: " + ", ".join(f"{one / 1e6:.1f}" for one in held))


if __name__ == "__main__":
    main()
