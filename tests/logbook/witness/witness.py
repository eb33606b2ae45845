"""Says what a logbook or a handover pack is worth, and what each command may answer about it.

It knows the page schemas/logbook-format.md and the published standards that the page names, and nothing of boothkeep:
RFC 8785 (canonical JSON), RFC 1952 (gzip), FIPS 180-4 (SHA-256, by Python), RFC 8032 (Ed25519, by openssl).

Reads one JSON list from standard input: {"kind": "logbook", "folder", "site", "screen"} or {"kind": "pack", "file"}, the
latter with "keys" where a policy trusts some. Writes a list of findings in the same order.

An answer lists the exit codes that are honest. "sound" stands for what the command answers about a sound logbook.
"""

import hashlib
import io
import json
import math
import os
import re
import stat
import subprocess
import sys
import tempfile
import zipfile
import zlib
from base64 import b64decode
from datetime import datetime

OPENSSL = os.environ.get("OPENSSL", "openssl")


# ---------------------------------------------------------------- RFC 8785

def canonical(value):
    """The text of a JSON value in the form of RFC 8785."""
    if isinstance(value, dict):
        names = sorted(value, key=lambda name: name.encode("utf-16-be"))
        return "{" + ",".join(text(name) + ":" + canonical(value[name]) for name in names) + "}"
    if isinstance(value, list):
        return "[" + ",".join(canonical(item) for item in value) + "]"
    if isinstance(value, str):
        return text(value)
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    return number(float(value))


def text(value):
    return json.dumps(value, ensure_ascii=False)


def number(value):
    """As ECMAScript's Number::toString does it, which RFC 8785 section 3.2.2.3 asks for."""
    if not math.isfinite(value):
        raise ValueError("no number of JSON")
    if value == 0:
        return "0"
    if value < 0:
        return "-" + number(-value)
    digits, exponent = ("%r" % value), 0
    if "e" in digits:
        digits, power = digits.split("e")
        exponent = int(power)
    whole, _, part = digits.partition(".")
    part = "" if part == "0" else part
    digits = (whole + part).lstrip("0")
    point = len(whole) + exponent if whole != "0" else exponent - (len(part) - len(part.lstrip("0")))
    digits = digits.rstrip("0")
    count = len(digits)
    if count <= point <= 21:
        return digits + "0" * (point - count)
    if 0 < point <= 21:
        return digits[:point] + "." + digits[point:]
    if -6 < point <= 0:
        return "0." + "0" * -point + digits
    tail = ("+" if point > 0 else "-") + str(abs(point - 1))
    return digits[0] + ("." + digits[1:] if count > 1 else "") + "e" + tail


def parsed(line):
    """A JSON object whose text is canonical, or None."""
    try:
        value = json.loads(line)
        return value if isinstance(value, dict) and canonical(value) == line else None
    except (ValueError, OverflowError, RecursionError, KeyError, TypeError):
        return None


def sha256(data):
    return hashlib.sha256(data if isinstance(data, bytes) else data.encode()).hexdigest()


# ---------------------------------------------------------------- files

HEADER = bytes([0x1F, 0x8B, 8, 0, 0, 0, 0, 0, 0, 255])
NAME = re.compile(r"([a-z0-9_-]+(?:\.[0-9a-f]{64})?)\.([0-9a-f]{16})\.gz")
UNFINISHED = re.compile(r"~.*\.tmp")


def gunzip(data):
    """What gzip members one after the other hold, or None where one is damaged."""
    out = []
    while data:
        if not data.startswith(HEADER):
            return None
        inflate = zlib.decompressobj(31)
        try:
            out.append(inflate.decompress(data))
        except zlib.error:
            return None
        if not inflate.eof:
            return None
        data = inflate.unused_data
    return b"".join(out) if out else None


def lines_of(data):
    content = gunzip(data)
    if content is None or not content.endswith(b"\n"):
        return None
    try:
        return content.decode().split("\n")[:-1]
    except UnicodeDecodeError:
        return None


def folder_name(identity):
    """An id as a folder's name."""
    name = "".join(
        chr(byte) if re.match("[a-z0-9-]", chr(byte)) else "_%02x" % byte for byte in identity.encode()
    )
    if re.fullmatch("con|prn|aux|nul|com[0-9]|lpt[0-9]", name):
        name = "_%02x" % ord(name[0]) + name[1:]
    return name if len(name) <= 60 else name[:40] + "__" + sha256(identity)[:16]


def listed(path):
    try:
        return sorted(os.listdir(path))
    except (FileNotFoundError, NotADirectoryError):
        return []


def is_regular(path):
    return stat.S_ISREG(os.lstat(path).st_mode)


class Kept:
    """A file by its name: whole, or with other bytes than the name vouches for, or not to be read."""

    def __init__(self, folder, name):
        self.path = os.path.join(folder, name)
        self.stem, self.digest = NAME.fullmatch(name).groups()
        try:
            self.data = open(self.path, "rb").read() if is_regular(self.path) else None
        except OSError:
            self.data = None
        self.whole = self.data is not None and sha256(self.data)[:16] == self.digest


def kept_in(folder):
    """The files of a folder that have names of the logbook; folders are no files."""
    return [
        Kept(folder, name)
        for name in listed(folder)
        if NAME.fullmatch(name) and not os.path.isdir(os.path.join(folder, name))
    ]


# ---------------------------------------------------------------- signatures

known_signatures = {}


def is_signed(message, public_key, value):
    """Whether an Ed25519 signature matches, as openssl says."""
    key = (message, public_key, value)
    if key not in known_signatures:
        known_signatures[key] = ask_openssl(*key)
    return known_signatures[key]


def ask_openssl(message, public_key, value):
    raw_key, raw_value = b64decode(public_key), b64decode(value)
    if len(raw_key) != 32 or len(raw_value) != 64:
        return False
    with tempfile.TemporaryDirectory() as folder:
        def put(name, data):
            path = os.path.join(folder, name)
            with open(path, "wb") as file:
                file.write(data)
            return path

        # RFC 8410: SubjectPublicKeyInfo of Ed25519.
        der = put("key", bytes.fromhex("302a300506032b6570032100") + raw_key)
        args = ["pkeyutl", "-verify", "-pubin", "-keyform", "DER", "-inkey", der, "-rawin"]
        args += ["-in", put("message", message), "-sigfile", put("signature", raw_value)]
        return subprocess.run([OPENSSL] + args, capture_output=True).returncode == 0


def moment(words):
    return datetime.fromisoformat(words.replace("Z", "+00:00"))


def worth(message, signature, keys, at=None):
    """trusted, retired-key, unknown-key or broken."""
    if not is_signed(message, signature["publicKey"], signature["value"]):
        return "broken"
    key = next((key for key in keys if key["publicKey"] == signature["publicKey"]), None)
    if key is None:
        return "unknown-key"
    retired = key.get("retired")
    if retired is None:
        return "trusted"
    if retired.get("stolen") is True or at is None or moment(at) >= moment(retired["from"]):
        return "retired-key"
    return "trusted"


def best(worths):
    return next((kind for kind in ("trusted", "retired-key", "unknown-key", "broken") if kind in worths), "none")


# ---------------------------------------------------------------- a logbook

KINDS = {"boothkeep.entry", "boothkeep.withdrawal", "boothkeep.signature"}
SHA = re.compile("[0-9a-f]{64}")


def is_record(value):
    """The members that this script needs; the schemas say more."""
    if value is None or value.get("kind") not in KINDS:
        return False
    if not str(value.get("schemaVersion", "")).startswith("1."):
        return False
    if value["kind"] == "boothkeep.signature":
        return bool(SHA.fullmatch(value.get("record", "")) and value.get("publicKey") and value.get("value"))
    if not value.get("recordedAt") or not value.get("recordedBy"):
        return False
    if value["kind"] == "boothkeep.withdrawal":
        return bool(SHA.fullmatch(value.get("entry", "")))
    number_of = value.get("number")
    return isinstance(number_of, int) and 1 <= number_of <= 10**9 and bool(SHA.fullmatch(value["configuration"]))


WHOLE = ('{"configuration":{', ',"kind":"boothkeep.whole"}')


def read_line(line):
    """("whole", text), ("edited", line) or ("record", value); None for a line that is not understood."""
    if line.startswith(WHOLE[0]) and line.endswith(WHOLE[1]):
        return "whole", line[len('{"configuration":'):-len(WHOLE[1])]
    value = parsed(line)
    if value is not None and value.get("kind") == "boothkeep.edited":
        return "edited", value
    return ("record", value) if is_record(value) else None


def pieces(source):
    out = [""]
    for token in re.findall(r'"(?:[^"\\]|\\.)*":?|[^][{},:"]+|[][{},:]', source):
        if token in ("{", "}", "[", "]", ",", ":") or token.endswith(":"):
            out[-1] += token
        else:
            out += [token, ""]
    return out


def edited(base, line):
    old, new, at = pieces(base), [], 0
    added = line["add"].split("\n") if line["keep"] else []
    for index, (keep, piece) in enumerate(zip(line["keep"], added)):
        drop = line["drop"][index] if "drop" in line else 1
        new += old[at:at + keep] + [piece]
        at += keep + drop
    return "".join(new + old[at:])


class Screen:
    def __init__(self, book, site, screen):
        self.book, self.site, self.screen = book, site, screen
        self.records, self.whole, self.edited = {}, {}, {}
        self.damaged, self.missing = set(), set()
        self.bound_unknown = False
        self.faulty_files = []
        self.read_folder()
        lost = self.read_bound()
        self.damaged -= set(self.records)
        self.damaged |= {start for start in lost if not self.is_here(start)}
        self.ask_register()
        for value in self.records.values():
            named = {
                "boothkeep.entry": value.get("previous", []),
                "boothkeep.withdrawal": [value.get("entry")],
                "boothkeep.signature": [value.get("record")],
            }[value["kind"]]
            self.missing |= {name for name in named if not self.is_here(name)}
        self.damaged = {start for start in self.damaged if not any(m.startswith(start) for m in self.missing)}

    def is_here(self, start):
        known = list(self.records) + list(self.damaged)
        return any(name.startswith(start) or start.startswith(name) for name in known)

    def take(self, lines):
        """All lines, or none where one is not understood or of another screen."""
        read = [read_line(line) for line in lines]
        if None in read:
            return False
        for kind, value in read:
            if kind == "record" and (
                folder_name(value["siteId"]) != self.site or folder_name(value["screenId"]) != self.screen
            ):
                return False
        for (kind, value), line in zip(read, lines):
            if kind == "whole":
                self.whole[sha256(value)] = value
            elif kind == "edited":
                self.edited.setdefault(value["sha256"], []).append(value)
            else:
                self.records[sha256(line)] = value
        return True

    def read_folder(self):
        for file in kept_in(os.path.join(self.book.folder, "entries", self.site, self.screen)):
            lines = lines_of(file.data) if file.whole else None
            taken = lines is not None and len(lines) > 0 and sha256(lines[0]) == file.stem and self.take(lines)
            if not taken:
                self.faulty_files.append(file.path)
                if SHA.fullmatch(file.stem):
                    self.damaged.add(file.stem)

    def read_bound(self):
        lost = []
        for file in self.book.bound:
            if file.stem != self.site:
                continue
            if not file.whole:
                self.faulty_files.append(file.path)
            index = bound_index(file.data) if file.data is not None else None
            if index is None:
                self.listed_in_mark(file.stem + "." + file.digest, absent=True)
                continue
            for member, data in index:
                if "screenId" in member and folder_name(member["screenId"]) != self.screen:
                    continue
                lines = lines_of(data) if sha256(data)[:16] == member["digest"] else None
                if "screenId" not in member:
                    for line in lines or []:
                        kind, value = read_line(line) or ("", "")
                        if kind == "whole":
                            self.whole[sha256(value)] = value
                elif lines is None or not self.take(lines):
                    lost += member.get("records", [])
                    self.faulty_files.append(file.path)
        return lost

    def listed_in_mark(self, mark, absent):
        """What a bound file that cannot be read held, as its mark says."""
        names = self.book.bound_mark(mark)
        if names is None:
            self.bound_unknown = True
            return
        for screen, start in names:
            if screen == self.screen and not self.is_here(start):
                self.missing.add(start)

    def ask_register(self):
        marks = os.path.join(self.book.folder, "register", "entries", self.site)
        for mark in listed(marks):
            screen, _, identity = mark.partition(".")
            if screen == self.screen and SHA.fullmatch(identity) and not self.is_here(identity):
                self.missing.add(identity)
        present = {file.stem + "." + file.digest for file in self.book.bound}
        for mark in listed(os.path.join(self.book.folder, "register", "bound")):
            if mark.split(".")[0] == self.site and mark not in present:
                self.listed_in_mark(mark, absent=True)
        self.missing = {
            start for start in self.missing
            if not any(other != start and other.startswith(start) for other in self.missing)
        }

    def text_of(self, start, seen=()):
        """The text of a configuration, by its identity or the start of it."""
        for known in (self.whole, self.book.references):
            for identity, content in known.items():
                if identity.startswith(start):
                    return content
        for identity, lines in self.edited.items():
            if not identity.startswith(start) or identity in seen or len(seen) > 12:
                continue
            for line in lines:
                base = self.text_of(line["base"], seen + (identity,))
                result = None if base is None else edited(base, line)
                if result is not None and sha256(result) == identity:
                    return result
        return None

    def judge(self):
        """Every entry with its standing, in order."""
        entries = {name: value for name, value in self.records.items() if value["kind"] == "boothkeep.entry"}
        policy = self.book.policy
        beyond = numbered_beyond(entries)
        followed = {name for value in entries.values() for name in value["previous"]}
        signatures = [value for value in self.records.values() if value["kind"] == "boothkeep.signature"]

        def signed(identity, value):
            message = canonical(value).encode()
            return best([
                worth(message, signature, policy["keys"], value["recordedAt"])
                for signature in signatures if signature["record"] == identity
            ])

        out = []
        for identity, value in sorted(
            entries.items(), key=lambda item: (item[1]["number"], moment(item[1]["recordedAt"]), item[0])
        ):
            signature = signed(identity, value)
            withdrawals = [
                signed(own, record) for own, record in self.records.items()
                if record["kind"] == "boothkeep.withdrawal" and record["entry"] == identity
            ]
            counted = [kind for kind in withdrawals if not policy["needs"] or kind == "trusted"]
            content = self.text_of(value["configuration"])
            out.append({
                "id": identity,
                "number": value["number"],
                "reason": value["reason"],
                "unit": value["unit"],
                "previous": value["previous"],
                "isLatest": identity not in followed,
                "configuration": value["configuration"],
                "contents": contents_standing(value, content),
                "signature": signature,
                "withdrawn": len(counted) > 0,
                "uncounted": len(withdrawals) - len(counted),
                "refused": refusal(identity in beyond, signature, policy),
                "readBack": self.read_back(value),
            })
        return out

    def lost_parts(self):
        """Whether an attachment of any entry is not here."""
        return any(
            attached["sha256"] not in self.book.parts
            for value in self.records.values() for attached in value.get("attachments", [])
        )

    def read_back(self, value):
        for attached in value.get("attachments", []):
            if attached["name"] not in ("confirmation.json", "ticked-sheet.json"):
                continue
            data = self.book.parts.get(attached["sha256"])
            try:
                document = json.loads(data) if data is not None else {}
            except ValueError:
                document = {}
            if attached["name"] == "ticked-sheet.json":
                fits = document.get("intended", {}).get("sha256") == value["configuration"]
                return "ticked" if fits else "unknown"
            if document.get("readBack", {}).get("sha256") != value["configuration"]:
                return "unknown"
            return {"equal": "agrees", "within-steps": "agrees", "differs": "differs"}.get(
                document.get("verdict"), "unknown"
            )
        return "none"


def contents_standing(entry, content):
    if content is None:
        return "lost"
    configuration = parsed(content)
    if configuration is None:
        return "not-canonical"
    screen, unit = configuration.get("screen", {}), configuration.get("unit", {})
    own = (
        screen.get("siteId") == entry["siteId"] and screen.get("screenId") == entry["screenId"]
        and unit.get("profileId") == entry["unit"]["profileId"] and unit.get("serial") == entry["unit"]["serial"]
    )
    return "whole" if own else "other-screen"


def refusal(is_beyond, signature, policy):
    if is_beyond:
        return "number-beyond"
    if policy["unknown"]:
        return "unknown-policy"
    if signature == "broken":
        return "broken-signature"
    return "unsigned" if policy["needs"] and signature != "trusted" else None


def numbered_beyond(entries):
    beyond = set()
    for identity, value in sorted(entries.items(), key=lambda item: item[1]["number"]):
        known = [entries[name]["number"] for name in value["previous"] if name in entries and name not in beyond]
        gap = 1000000 if any(name not in entries for name in value["previous"]) else 0
        if value["number"] > max([gap] + known) + 1000:
            beyond.add(identity)
    return beyond


def bound_index(data):
    """The members of a bound file with their bytes; None where neither copy of the index can be read."""
    starts = [match.start() for match in re.finditer(re.escape(HEADER), data)]
    if not starts:
        return None
    ends = starts[1:] + [len(data)]
    for start, end in ((starts[0], ends[0]), (starts[-1], len(data))):
        lines = lines_of(data[start:end]) if start == starts[-1] or start == 0 else None
        value = parsed(lines[0]) if lines is not None and len(lines) == 1 else None
        if value is None or value.get("kind") != "boothkeep.bound-index":
            continue
        total = sum(member["sizeBytes"] for member in value["members"])
        at = (len(data) - total) // 2
        out = []
        for member in value["members"]:
            out.append((member, data[at:at + member["sizeBytes"]]))
            at += member["sizeBytes"]
        return out
    return None


class Book:
    def __init__(self, folder):
        self.folder = folder
        self.header = self.read_header()
        self.bound = kept_in(os.path.join(folder, "bound"))
        self.parts, self.references = {}, {}
        for file in kept_in(os.path.join(folder, "parts")):
            content = gunzip(file.data) if file.whole else None
            if content is not None and sha256(content) == file.stem:
                self.parts[file.stem] = content
        for profile in listed(os.path.join(folder, "references")):
            for file in kept_in(os.path.join(folder, "references", profile)):
                content = gunzip(file.data) if file.whole else None
                if content is not None and sha256(content) == file.stem.split(".")[-1]:
                    self.references[sha256(content)] = content.decode()
        self.policy = self.read_policy()
        self.unlisted = set()
        self.screens = {place: Screen(self, *place) for place in self.places()}

    def read_header(self):
        path = os.path.join(self.folder, "logbook.json")
        if not os.path.lexists(path) or not is_regular(path):
            return "missing"
        try:
            line = open(path, "rb").read().decode()
        except UnicodeDecodeError:
            return "damaged"
        value = parsed(line[:-1]) if line.endswith("\n") else None
        if value is None or value.get("kind") != "boothkeep.logbook":
            return "damaged"
        # The register knows a header that was changed and is still JSON.
        marks = [name for name in listed(os.path.join(self.folder, "register")) if name.startswith("logbook.json.")]
        if marks and "logbook.json." + sha256(line)[:16] not in marks:
            return "changed"
        return "whole"

    def bound_mark(self, mark):
        """The records that the mark of a bound file lists, or None where it lists none."""
        try:
            content = open(os.path.join(self.folder, "register", "bound", mark), "rb").read().decode()
        except (OSError, UnicodeDecodeError):
            return None
        lines = content.split("\n")
        if len(lines) < 2 or lines[-1] != "":
            return None
        names, digest = lines[:-2], lines[-2]
        if sha256("".join(name + "\n" for name in names))[:16] != digest:
            return None
        return [tuple(name.rsplit(".", 1)) for name in names]

    def read_policy(self):
        read, unseen, stems = [], set(), set()
        for file in kept_in(os.path.join(self.folder, "policy")):
            stems.add(file.stem)
            lines = lines_of(file.data) if file.whole else None
            value = parsed(lines[0]) if lines is not None and len(lines) == 1 else None
            fits = (
                value is not None and value.get("kind") == "boothkeep.signature-policy"
                and file.stem == "%s.%s" % (value.get("number"), sha256(lines[0]))
            )
            read.append((file.stem, value)) if fits else unseen.add(file.stem)
        unseen -= {stem for stem, _ in read}
        marks = listed(os.path.join(self.folder, "register", "policy"))
        unseen |= {mark for mark in marks if mark not in stems}
        last = max([value["number"] for _, value in read], default=0)
        in_force = [value for _, value in read if value["number"] == last]
        unknown = any(int(stem.split(".")[0]) >= last for stem in unseen)
        keys = in_force[0]["trustedKeys"] if in_force and not unknown else []
        for other in in_force[1:]:
            keys = [key for key in keys if any(k["publicKey"] == key["publicKey"] for k in other["trustedKeys"])]
        return {
            "unknown": unknown,
            "needs": unknown or any(value["restoreNeedsSignature"] for value in in_force),
            "keys": keys,
            "unseen": len(unseen),
        }

    def places(self):
        found = set()
        for top in ("entries", os.path.join("register", "entries")):
            for site in listed(os.path.join(self.folder, top)):
                for name in listed(os.path.join(self.folder, top, site)):
                    found.add((site, name.split(".")[0]))
        present = {}
        for file in self.bound:
            present[file.stem + "." + file.digest] = bound_index(file.data) if file.data is not None else None
        for mark in set(listed(os.path.join(self.folder, "register", "bound"))) | set(present):
            site = mark.split(".")[0]
            index = present.get(mark)
            if index is not None:
                found |= {(site, folder_name(m["screenId"])) for m, _ in index if "screenId" in m}
                continue
            names = self.bound_mark(mark)
            if names is None:
                self.unlisted.add(site)
            found |= {(site, screen) for screen, _ in names or []}
        return sorted(found)

    def untrue_files(self):
        """Whether any file of the logbook is damaged, missing or not what its name says."""
        faults = []
        for top, depth in (("entries", 2), ("references", 1), ("bound", 0), ("parts", 0), ("policy", 0)):
            folders = [os.path.join(self.folder, top)]
            for _ in range(depth):
                folders = [
                    os.path.join(folder, name) for folder in folders for name in listed(folder)
                    if os.path.isdir(os.path.join(folder, name))
                ]
            stems = {}
            for folder in folders:
                for file in kept_in(folder):
                    place = os.path.relpath(folder, self.folder).replace(os.sep, "/")
                    stem = file.stem + "." + file.digest if top == "bound" else file.stem
                    key = place + "." + stem if top == "entries" else place + "/" + stem
                    stems[key] = stems.get(key, False) or self.is_true(top, file)
            faults += [key for key, whole in stems.items() if not whole]
            base = os.path.join(self.folder, "register", top)
            for path, _, names in os.walk(base):
                place = os.path.relpath(path, os.path.join(self.folder, "register")).replace(os.sep, "/")
                for name in names:
                    key = place + "/" + name
                    if top == "bound" and key not in stems and self.is_settled(name):
                        continue
                    if key not in stems:
                        faults.append(key)
        return faults

    def is_settled(self, mark):
        """Whether all that a lost bound file held is here in another file."""
        names = self.bound_mark(mark)
        site = mark.split(".")[0]
        if names is None:
            return False
        known = {
            screen: self.screens[(site, screen)].records for screen, _ in names if (site, screen) in self.screens
        }
        return all(any(i.startswith(start) for i in known.get(screen, {})) for screen, start in names)

    def is_true(self, top, file):
        if not file.whole:
            return False
        content = gunzip(file.data)
        if content is None:
            return False
        if top in ("parts", "references"):
            return sha256(content) == file.stem.split(".")[-1]
        return True


# ---------------------------------------------------------------- what commands may answer

DAMAGED = 3


def on_logbook(case):
    book = Book(case["folder"])
    wanted = (folder_name(case["site"]), folder_name(case["screen"]))
    commands = [
        "restore", "history", "history --site", "show", "find", "pack", "handover-sheet", "entry-sheet", "visit",
        "match-paper", "copy-out", "audit", "drift", "standard derive", "standard propose", "merge", "verify",
        "validate",
    ]
    if book.header == "missing":
        return {"header": "missing", "answers": {name: {"exit": [2, DAMAGED]} for name in commands}}
    if book.header == "damaged":
        return {"header": "damaged", "answers": {name: {"exit": [DAMAGED]} for name in commands}}
    judged = {place: screen.judge() for place, screen in book.screens.items()}
    seen = {
        place: {
            "missing": len(screen.missing),
            "damaged": len(screen.damaged),
            "boundUnknown": screen.bound_unknown,
            "files": len(screen.faulty_files),
            "entries": judged[place],
            "unsettled": is_unsettled(judged[place]),
            "lostParts": screen.lost_parts(),
        }
        for place, screen in book.screens.items()
    }
    empty = {"missing": 0, "damaged": 0, "boundUnknown": False, "files": 0, "entries": [], "unsettled": False, "lostParts": False}
    own = seen.get(wanted, empty)
    choice = choose(own, book.screens.get(wanted), as_left(own["entries"]))
    confirmed = choose(own, book.screens.get(wanted), as_left(own["entries"], confirmed=True))
    return {
        "header": book.header,
        "policy": {name: book.policy[name] for name in ("unknown", "needs", "unseen")},
        "unlisted": sorted(book.unlisted),
        "screens": {"/".join(place): value for place, value in seen.items()},
        "untrue": book.untrue_files(),
        "restore": choice,
        "answers": answers(book, seen, own, wanted, choice, confirmed, case["paper"]),
    }


def is_unsettled(entries):
    unsettled = None
    for entry in entries:
        if entry["readBack"] == "differs":
            unsettled = entry["unit"]
        elif entry["readBack"] == "agrees" or (entry["readBack"] == "ticked" and entry["unit"] != unsettled):
            unsettled = None
    return unsettled is not None


def as_left(entries, confirmed=False):
    def counts(entry):
        if entry["reason"] == "as-left":
            return True
        return (
            confirmed and entry["reason"] in ("after-swap", "standard-applied")
            and entry["readBack"] in ("agrees", "ticked")
        )

    return [entry for entry in reversed(entries) if counts(entry)]


def choose(own, screen, candidates):
    """What a restore does: {"kind": "takes"|"stops"|"asks"|"none", ...}."""
    passed = []
    for entry in candidates:
        reason = "withdrawn" if entry["withdrawn"] else entry["refused"]
        if reason is None and entry["contents"] != "whole":
            reason = entry["contents"]
        if reason is not None:
            passed.append((entry["id"], reason))
            continue
        before = ancestors(own["entries"], entry["id"])
        lost = [start for start in screen.missing | screen.damaged if not any(i.startswith(start) for i in before)]
        doubtful = [name for name, why in passed if why in ("lost", "unknown-policy")]
        result = {"id": entry["id"], "configuration": entry["configuration"], "passed": passed}
        if lost or doubtful or own["boundUnknown"]:
            return {"kind": "stops", **result}
        last = [other for other in own["entries"] if not other["withdrawn"] and other["refused"] != "number-beyond"]
        is_other_model = last[-1]["unit"]["profileId"] != entry["unit"]["profileId"]
        is_apart = any(
            other["reason"] == "as-left" and not other["withdrawn"] and other["refused"] is None
            and other["configuration"] != entry["configuration"] and other["id"] not in before
            and entry["id"] not in ancestors(own["entries"], other["id"])
            for other in own["entries"]
        )
        return {"kind": "asks" if is_other_model or is_apart else "takes", **result}
    return {"kind": "none", "passed": passed}


def ancestors(entries, identity):
    known = {entry["id"]: entry for entry in entries}
    seen, queue = set(), [identity]
    while queue:
        name = queue.pop()
        if name not in seen:
            seen.add(name)
            queue += known[name]["previous"] if name in known else []
    return seen


def answers(book, seen, own, wanted, choice, confirmed, paper):
    """The exit codes that are honest, and whether a line must name how many records are not here."""
    site = {place: value for place, value in seen.items() if place[0] == wanted[0]}
    policy = book.policy["unseen"] > 0

    def unseen(value):
        return value["missing"] + value["damaged"] > 0 or value["boundUnknown"]

    def faulty(value):
        return unseen(value) or value["files"] > 0

    def bad_last(value):
        """The last entry that was not withdrawn cannot be trusted, or may not be the last one."""
        usable = [e for e in value["entries"] if not e["withdrawn"] and e["refused"] != "number-beyond"]
        last = usable[-1:]
        named = {name for entry in value["entries"] for name in entry["previous"]}
        screen = next(book.screens[place] for place in seen if seen[place] is value)
        hidden = [s for s in screen.missing | screen.damaged if not any(n.startswith(s) for n in named)]
        if hidden or value["boundUnknown"]:
            return True
        return any(entry["contents"] != "whole" or entry["refused"] is not None for entry in last)

    def bad_latest(value):
        """One of the entries that none follows cannot be trusted."""
        return any(
            entry["isLatest"] and not entry["withdrawn"] and (entry["contents"] != "whole" or entry["refused"])
            for entry in value["entries"]
        )

    def lost_contents(value):
        return any(entry["contents"] != "whole" for entry in value["entries"])

    everywhere = any(faulty(value) for value in seen.values()) or policy or len(book.unlisted) > 0
    here = faulty(own) or policy
    in_site = any(faulty(value) for value in site.values()) or policy or wanted[0] in book.unlisted
    found = next((entry["configuration"] for entry in own["entries"] if entry["id"] == paper), None)
    out = {}

    def say(command, codes, why):
        out[command] = {"exit": codes, "why": why}

    for command, chosen in (
        ("restore", choice), ("entry-sheet", choice), ("visit", choice), ("pack", confirmed),
        ("handover-sheet", confirmed),
    ):
        kind = chosen["kind"]
        if kind in ("stops", "none"):
            say(command, [DAMAGED], kind)
        elif kind == "asks":
            say(command, [1, DAMAGED], kind)
        elif own["unsettled"] and command != "restore":
            say(command, [1, DAMAGED], "the last read-back differs")
        elif unseen(own) and command != "restore":
            say(command, [DAMAGED], "records of the screen cannot be seen")
        elif command == "visit" and chosen["configuration"] != found:
            say(command, [1], "found otherwise than this entry was left")
        else:
            say(command, ["sound"], "takes")
    say("history", [DAMAGED] if everywhere else ["sound"], "records")
    say("history --site", [DAMAGED] if in_site else ["sound"], "records of the site")
    latest = [entry for entry in own["entries"] if not entry["withdrawn"]][-1:]
    if not latest:
        say("show", [2, DAMAGED], "no entry")
    elif here or latest[0]["refused"] is not None or latest[0]["contents"] != "whole":
        say("show", [DAMAGED], "the entry or its screen")
    else:
        say("show", ["sound"], "whole")
    contents = any(lost_contents(value) for value in seen.values())
    say("find", [DAMAGED] if everywhere or contents else ["sound"], "records and contents")
    say("match-paper", *on_paper(own, paper, here))
    lost_here = any(lost_contents(value) or value["lostParts"] for value in site.values())
    lost = any(lost_contents(value) or value["lostParts"] for value in seen.values())
    say("copy-out", [DAMAGED] if in_site else [1, DAMAGED] if lost_here else ["sound"], "the site")
    say("merge", [1, DAMAGED] if everywhere or lost else ["sound"], "records and contents")
    last = any(bad_last(value) for value in seen.values()) or len(book.unlisted) > 0 or book.policy["unknown"]
    for command in ("drift", "standard derive", "standard propose"):
        say(command, [DAMAGED] if last else ["sound", DAMAGED], "the last entries")
    latest = any(bad_latest(value) for value in seen.values())
    say("validate", [DAMAGED] if everywhere or latest else ["sound", DAMAGED], "records and last entries")
    say("audit", ["act"] if everywhere or last or any(v["unsettled"] for v in seen.values()) else ["any"], "rows")
    untrue = book.untrue_files() or book.header != "whole"
    noted = any(
        entry["refused"] or entry["uncounted"] or entry["signature"] in ("broken", "unknown-key", "retired-key")
        for value in seen.values() for entry in value["entries"]
    )
    if untrue or everywhere or contents:
        say("verify", [DAMAGED], "files and contents")
    elif noted:
        say("verify", [1, DAMAGED], "standing")
    else:
        say("verify", ["sound", 1], "whole")
    return out


def on_paper(own, paper, here):
    """What may be said of a printed sheet that names an entry."""
    index = next((at for at, entry in enumerate(own["entries"]) if entry["id"] == paper), None)
    if here:
        return [DAMAGED], "records of the screen"
    if index is None:
        return [1], "no such entry"
    entry = own["entries"][index]
    if entry["contents"] != "whole":
        return [DAMAGED], entry["contents"]
    later = [
        other for other in own["entries"][index + 1:]
        if not other["withdrawn"] and other["configuration"] != entry["configuration"]
    ]
    if entry["withdrawn"] or entry["refused"] or entry["readBack"] == "differs" or later:
        return [1, DAMAGED], "not in force any more"
    return ["sound"], "in force"


# ---------------------------------------------------------------- a pack

SINGLE = {"configuration", "unit-profile", "sheet-text", "sheet-html", "cautions"}


def on_pack(case):
    fault = pack_fault(case["file"], case.get("keys", []))
    signature = None
    if isinstance(fault, dict):
        signature, fault = fault["signature"], fault["fault"]
    names = ["unpack", "validate", "merge", "heal", "match-paper", "handover-sheet", "entry-sheet"]
    is_empty = os.path.getsize(case["file"]) == 0
    codes = ["sound"] if fault is None else [2, DAMAGED] if is_empty else [DAMAGED]
    honest = {"exit": codes, "why": fault or "whole"}
    answers_of = {name: honest for name in names}
    if fault is None:
        # A whole pack may hold other settings than those of a printed sheet.
        answers_of["match-paper"] = {"exit": ["sound", 1], "why": "whole"}
    return {"fault": fault, "signature": signature, "answers": answers_of}


def pack_fault(path, keys):
    """Why a pack is not to be believed; else what its signature is worth."""
    try:
        archive = zipfile.ZipFile(io.BytesIO(open(path, "rb").read()))
        names = archive.namelist()
        files = {name: archive.read(name) for name in names}
    except Exception as error:  # Whatever a damaged zip makes of Python's reader.
        return "no zip: %s" % type(error).__name__
    if len(set(names)) != len(names):
        return "a name twice"
    try:
        documents = {name: json.loads(data) for name, data in files.items() if name.endswith(".json")}
        return contents_fault(files, documents, keys)
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        return "a document is not what it should be: %s" % error


def contents_fault(files, documents, keys):
    manifest = documents["manifest.json"]
    if manifest["kind"] != "boothkeep.pack":
        return "no manifest"
    roles = {}
    for item in manifest["files"]:
        data = files.get(item["name"])
        if data is None or len(data) != item["sizeBytes"] or sha256(data) != item["sha256"]:
            return "not the file that the manifest lists: %s" % item["name"]
        roles.setdefault(item["role"], []).append(item["name"])
    if set(files) - {item["name"] for item in manifest["files"]} - {"manifest.json", "signature.json"}:
        return "a file that the manifest does not list"
    if any(len(roles.get(role, [])) != 1 for role in SINGLE):
        return "a file is missing or there twice"
    configuration = documents[roles["configuration"][0]]
    identity = sha256(canonical(configuration))
    screen, unit = configuration["screen"], configuration["unit"]
    if configuration["kind"] != "boothkeep.configuration":
        return "no configuration"
    if identity != manifest["configuration"]:
        return "not the configuration that the manifest names"
    if documents[roles["unit-profile"][0]]["id"] != unit["profileId"]:
        return "the profile of another unit"
    about = (screen["siteId"], screen["screenId"], unit["profileId"], unit["serial"])
    if about != (manifest["siteId"], manifest["screenId"], manifest["unit"]["profileId"], manifest["unit"]["serial"]):
        return "the manifest is about another screen or unit"
    entries = [(documents[name], configuration) for name in roles.get("entry", [])]
    if len(entries) > 1 or (manifest.get("entry") is None) != (len(entries) == 0):
        return "the manifest and the entry"
    previous = zip(roles.get("previous-entry", []), roles.get("previous-configuration", []))
    if len(roles.get("previous-entry", [])) != len(roles.get("previous-configuration", [])):
        return "an earlier entry without its configuration"
    entries += [(documents[one], documents[other]) for one, other in previous]
    for index, (entry, kept) in enumerate(entries):
        if not is_record(entry) or entry["kind"] != "boothkeep.entry":
            return "no entry"
        if index == 0 and roles.get("entry") and sha256(canonical(entry)) != manifest["entry"]:
            return "not the entry that the manifest names"
        if entry["configuration"] != sha256(canonical(kept)) or contents_standing(entry, canonical(kept)) != "whole":
            return "an entry with another configuration"
        if (entry["siteId"], entry["screenId"]) != (manifest["siteId"], manifest["screenId"]):
            return "an entry of another screen"
    if "signature.json" not in files:
        return {"fault": None, "signature": "none"}
    kind = worth(canonical(manifest).encode(), documents["signature.json"], keys)
    return {"fault": "the signature does not match" if kind == "broken" else None, "signature": kind}


if __name__ == "__main__":
    cases = json.load(sys.stdin)
    json.dump([on_pack(case) if case["kind"] == "pack" else on_logbook(case) for case in cases], sys.stdout)
