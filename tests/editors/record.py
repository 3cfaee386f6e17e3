#!/usr/bin/env python3
"""Stands between an editor and its language server and records what they say.

    record.py RECORDING PROGRAM [ARGUMENT ...]

Passes every byte on unchanged. Each message becomes one line of JSON in RECORDING:
{"direction": "client" | "server", "message": ...}, by who sent it. What is no message becomes
{"direction": ..., "fault": "..."}, which the conformance check reports.
A request is written down before it is passed on, so that no answer can stand before it.
"""

import json
import os
import subprocess
import sys
import threading

CHUNK = 65536


class Recording:
    """The file that both directions write to."""

    def __init__(self, path):
        self._file = open(path, "a", encoding="utf-8")
        self._lock = threading.Lock()

    def write(self, direction, **said):
        with self._lock:
            self._file.write(json.dumps({"direction": direction, **said}) + "\n")
            self._file.flush()


class Messages:
    """Cuts one direction's bytes into messages."""

    def __init__(self, direction, recording):
        self._direction, self._recording, self._rest, self._lost = direction, recording, b"", False

    def take(self, chunk):
        if self._lost:
            return
        self._rest += chunk
        while b"\r\n\r\n" in self._rest:
            head, body = self._rest.split(b"\r\n\r\n", 1)
            length = self._length(head)
            if length is None:
                self._lost = True
                self._recording.write(self._direction, fault=f"no Content-Length in the header {head[:200]!r}")
                return
            if len(body) < length:
                return
            try:
                self._recording.write(self._direction, message=json.loads(body[:length]))
            except ValueError as fault:
                self._recording.write(self._direction, fault=f"a message that is not JSON: {fault}")
            self._rest = body[length:]

    def end(self):
        if self._rest and not self._lost:
            self._recording.write(self._direction, fault=f"{len(self._rest)} bytes at the end that are no message")

    @staticmethod
    def _length(head):
        for line in head.split(b"\r\n"):
            name, _, value = line.partition(b":")
            if name.strip().lower() == b"content-length" and value.strip().isdigit():
                return int(value)
        return None


def pump(source, target, messages):
    while chunk := os.read(source.fileno(), CHUNK):
        messages.take(chunk)
        try:
            target.write(chunk)
            target.flush()
        except BrokenPipeError:
            break
    messages.end()
    try:
        target.close()
    except BrokenPipeError:
        pass


def main(path, command):
    recording = Recording(path)
    server = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    # A daemon, since the editor may leave its end open after the server has ended.
    threading.Thread(
        target=pump, args=(sys.stdin.buffer, server.stdin, Messages("client", recording)), daemon=True
    ).start()
    pump(server.stdout, sys.stdout.buffer, Messages("server", recording))
    status = server.wait()
    if status < 0:
        recording.write("server", fault=f"the server was ended by signal {-status}")
    return status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
