# SPDX-License-Identifier: Apache-2.0
"""One file a command of the command line, each with run(options) -> exit code."""
