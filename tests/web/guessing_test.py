#!/usr/bin/env python3
"""How many keys a second somebody can try from one address, with the real program.

    guessing_test.py PROGRAM SOURCE_FOLDER [SECONDS, 10 when left out]

Eight clients send wrong keys as fast as they can. A key that was looked at is answered with 404, one
that was not with 429; of the latter a right key must not be told apart.
"""
import sys
import threading
import time
import urllib.error

from served import OPENER, Served

PROGRAM, SOURCE = sys.argv[1:3]
SECONDS = float(sys.argv[3]) if len(sys.argv) > 3 else 10
CLIENTS = 8
BURST, REFILL = 30, 2  # Rates::wrong_keys in src/web/app.hpp


def status(url):
    try:
        with OPENER.open(url, timeout=10) as answer:
            return answer.status
    except urllib.error.HTTPError as answer:
        return answer.code


def main():
    with Served(PROGRAM, SOURCE) as served:
        right = served.base + served.paths["K1"]
        assert status(right) == 200
        counts = [{404: 0, 429: 0} for _ in range(CLIENTS)]
        end = time.monotonic() + SECONDS

        def guess(client):
            number = client
            while time.monotonic() < end:
                counts[client][status(f"{served.base}/S/K1/{number:010d}")] += 1
                number += CLIENTS

        threads = [threading.Thread(target=guess, args=(client,)) for client in range(CLIENTS)]
        started = time.monotonic()
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        seconds = time.monotonic() - started
        # Right behind a wrong key that was not looked at; again where a try came free between them.
        wrong = f"{served.base}/S/K1/{0:010d}"
        alike = any(status(wrong) == 429 and status(right) == 429 for _ in range(20))
        assert alike, "a right key is told apart from a wrong one"
        looked_at = sum(count[404] for count in counts)
        tried = looked_at + sum(count[429] for count in counts)
        assert BURST <= looked_at <= BURST + seconds / REFILL + 1, (looked_at, seconds)
        print(f"{tried} wrong keys in {seconds:.1f} s ({tried / seconds:.0f} a second): "
              f"{looked_at} looked at, {BURST} at once and then {(looked_at - BURST) / seconds:.2f} a second")
        time.sleep(REFILL + 0.5)
        assert status(right) == 200, "the right key opens nothing after the guessing has ended"


main()
