"""The shop's wireless: a relay between browser and server that can be cut, mended, and made to lose an answer."""

from __future__ import annotations

import contextlib
import socket
import threading
from urllib.parse import urlsplit


class Wireless:
    """Relays a port of its own to a server's; real connections that really die."""

    def __init__(self, server: str) -> None:
        self._server = urlsplit(server).port
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.address = f"http://127.0.0.1:{self._listener.getsockname()[1]}"
        self._open: set[socket.socket] = set()
        self._down = False
        self._lose: bytes | None = None
        self.lost = threading.Event()
        threading.Thread(target=self._listen, daemon=True).start()

    def cut(self) -> None:
        """Break every connection, and every new one."""
        self._down = True
        for end in list(self._open):
            self._close(end)

    def mend(self) -> None:
        """Let connections through again."""
        self._down = False

    def lose_answer_to(self, request: bytes) -> None:
        """Let the next request that contains these bytes through, and break the connection instead of its answer."""
        self._lose = request

    def close(self) -> None:
        """Take it down."""
        self.cut()
        self._close(self._listener)  # ends the wait for the next connection as well

    def _listen(self) -> None:
        with contextlib.suppress(OSError):
            while True:
                near, _ = self._listener.accept()
                if self._down:
                    near.close()
                    continue
                threading.Thread(target=self._join, args=(near,), daemon=True).start()

    def _join(self, near: socket.socket) -> None:
        try:
            far = socket.create_connection(("127.0.0.1", self._server))
        except OSError:  # the server is down
            near.close()
            return
        self._open |= {near, far}
        if self._down:  # it was cut meanwhile
            self._close(near)
            self._close(far)
        losing = threading.Event()
        threading.Thread(target=self._pump, args=(far, near, losing, False), daemon=True).start()
        self._pump(near, far, losing, True)

    def _pump(self, source: socket.socket, target: socket.socket, losing: threading.Event, up: bool) -> None:
        with contextlib.suppress(OSError):
            while data := source.recv(65536):
                if up and self._lose is not None and self._lose in data:
                    self._lose = None
                    losing.set()
                elif not up and losing.is_set():
                    self.lost.set()
                    break
                target.sendall(data)
        self._close(source)
        self._close(target)

    def _close(self, end: socket.socket) -> None:
        self._open.discard(end)
        with contextlib.suppress(OSError):
            end.shutdown(socket.SHUT_RDWR)
        end.close()
