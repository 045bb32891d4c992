#!/usr/bin/env python3
"""Holds the service's answers to its OpenAPI document, by schemathesis.

    python api.py PROGRAM               PROGRAM is the built `presurvey`: its demo is started in a folder of its own, and ended
    python api.py PROGRAM EXAMPLES      with so many examples of each operation by chance, beside those made of every bound

Every operation is asked with what its schema allows and with what it does not, by whoever is signed in, of an enquiry that there is and of
those that there are not. No answer may be a fault of the service's own, have a status, a content type or a shape that the document does not
name, or take a method that it does not have. Nothing is drawn by chance that is not drawn the same the next time.

Left out: signing out, which would end the session of all that follows, and deleting by the installer the enquiry that is asked for; both
are asked of those that there are not. What a schema allows may still be refused (`schemas.py` has those rules), so that is not looked at.
"""

import http.client
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

CHECKS = (
    "not_a_server_error,status_code_conformance,content_type_conformance,response_headers_conformance,response_schema_conformance,"
    "unsupported_method,allow_header_conformance"
)
EXAMPLES = 10
SEED = 1
# An enquiry that is allowed in all else would be refused for its installer and for sizes that are not as many as its photos.
HOOKS = '''
import schemathesis

@schemathesis.hook
def map_body(context, body):
    envelope = body.get("envelope") if isinstance(body, dict) else None
    if isinstance(envelope, dict):
        envelope["installer"] = "demo"
        photos = body["payload"].get("photos") if isinstance(body.get("payload"), dict) else None
        if isinstance(photos, list):
            envelope["photo_sizes"] = [1] * len(photos)
    return body
'''


class Demo:
    """The demo on a port of its own, and a session in it."""

    def __init__(self, program, folder):
        self.running = subprocess.Popen(
            [program, "serve", "--demo", "--listen", "127.0.0.1:0", "--data", folder / "data", "--log", "json"],
            stdout=subprocess.PIPE,
            stderr=(folder / "log").open("wb"),
            text=True,
        )
        told = {}
        for line in self.running.stdout:
            name, _, value = line.strip().partition(": ")
            told[name] = value
            if name == "password":
                break
        self.address = told["homeowner's page"].rstrip("/")
        host, port = self.address.removeprefix("http://").split(":")
        self.host = host, int(port)
        _, headers = self.ask("POST", "/api/session", json.dumps({"password": told["password"]}))
        self.cookie = "; ".join(value.split(";")[0] for name, value in headers if name.lower() == "set-cookie")
        assert "presurvey_session" in self.cookie, headers

    def ask(self, method, path, body=None, **headers):
        connection = http.client.HTTPConnection(*self.host)
        connection.request(method, path, body, {"X-Presurvey": "1", **headers})
        answered = connection.getresponse()
        said = answered.read()
        assert answered.status < 300, (method, path, answered.status, said)
        return said, answered.getheaders()

    def list(self):
        return json.loads(self.ask("GET", "/api/installer/enquiries", Cookie=self.cookie)[0])

    def end(self):
        self.running.terminate()
        self.running.wait()


def hold(demo, folder, phases, examples, settings, *left_out):
    (folder / "schemathesis.toml").write_text('hooks = "hooks"\n' + settings)
    (folder / "hooks.py").write_text(HOOKS)
    left_out = [word for operation in left_out for word in ("--exclude-operation-id", operation)]
    command = pathlib.Path(sys.executable).with_name("schemathesis")
    done = subprocess.run(
        [command, "--config-file", folder / "schemathesis.toml", "--no-color", "run", f"{demo.address}/api/openapi.json", "--checks", CHECKS]
        + ["--phases", phases, "--max-examples", str(examples), "--seed", str(SEED), "--no-shrink", "--continue-on-failure"]
        + ["--generation-database", "none", "--warnings", "off", "--suppress-health-check", "all", *left_out]
        + ["--header", f"Cookie: {demo.cookie}", "--header", "X-Presurvey: 1"],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder)},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    if done.returncode:
        print(done.stdout)
        sys.exit("the answers above are not what the document says")
    return re.search(r"(\d+) generated, \d+ passed", done.stdout)[1]


def main():
    program, examples = pathlib.Path(sys.argv[1]).absolute(), int(sys.argv[2]) if len(sys.argv) > 2 else EXAMPLES
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        demo = Demo(program, folder)
        try:
            strange = hold(demo, folder, "fuzzing", examples, "", "sign_out")
            # Keys are found in answers too, and what is deleted so is gone: one that is left.
            key = demo.list()["enquiries"][0]["client_key"]
            there = f'[parameters]\n"path.client_key" = "{key}"\n'
            known = hold(demo, folder, "coverage,fuzzing", examples, there, "sign_out", "delete_enquiry_as_installer")
            demo.ask("GET", f"/api/installer/enquiries/{key}", Cookie=demo.cookie)  # what was asked for is still there
        finally:
            demo.end()
        # A fault of the service's own is logged even where something else was answered.
        faults = [line for line in (folder / "log").read_text().splitlines() if '"ERROR"' in line]
        assert not faults, faults[:5]
    print(f"{strange} requests of any enquiry and {known} of one that there is: all answered as the document says")


if __name__ == "__main__":
    main()
