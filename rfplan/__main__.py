# SPDX-License-Identifier: Apache-2.0
"""Run rfplan as a module: python -m rfplan."""

from rfplan.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
