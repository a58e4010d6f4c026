"""Turn BibTeX entries into one-line citations."""

import json
import re
from pathlib import Path

ACCENTS = {
    r'{\"a}': "ä", r'{\"o}': "ö", r'{\"u}': "ü", r'\"{u}': "ü", r'u\"{}': "ü", r"\ss": "ß", r"{\"a}": "ä",
    r"\c{C}": "Ç", r"{\'e}": "é", r"\&": "&", r"$_3$": "3", r"$\rho$": "ρ", "--": "-",
}


class Library:
    """BibTeX entries by key, with a file of corrections laid over them (null removes a field)."""

    def __init__(self, path: Path, corrections: Path):
        self.entries = dict(parse(path.read_text(encoding="utf-8", errors="replace")))
        for key, fields in json.loads(corrections.read_text(encoding="utf-8")).items():
            merged = self.entries[key] | fields
            self.entries[key] = {k: v for k, v in merged.items() if v is not None}
        self.names = {}

    def name_keys(self, keys: list):
        """Give each entry a short name: first author and year, with a letter where two would clash."""
        groups = {}
        for key in dict.fromkeys(keys):
            if key in self.entries:
                groups.setdefault(self.short_name(key), []).append(key)
        for short, members in groups.items():
            for i, key in enumerate(sorted(members)):
                self.names[key] = short if len(members) == 1 else f"{short}{'abcdef'[i]}"

    def short_name(self, key: str) -> str:
        entry = self.entries[key]
        family = authors(entry["author"])[0].split()[-1]
        family = family.replace("ü", "ue").replace("ä", "ae").replace("ö", "oe")
        return re.sub(r"[^a-z]", "", family.lower()) + re.sub(r"\D", "", entry["year"])

    def source(self, key: str) -> dict:
        return {"key": self.names[key], "citation": cite(self.entries[key])}


def parse(bib: str):
    for block in re.split(r"\n@", bib):
        head = re.match(r"\w+\{([^,]+),", block)
        if not head:
            continue
        fields = {}
        for field in re.finditer(r"^\s*(\w+)\s*=\s*(\{.*?\}|\w+),?\s*$", block, re.M | re.S):
            fields.setdefault(field.group(1).lower(), clean(field.group(2)))
        yield head.group(1).strip(), fields


def clean(value: str) -> str:
    for tex, plain in ACCENTS.items():
        value = value.replace(tex, plain)
    return re.sub(r"\s+", " ", re.sub(r"[{}]", "", value.replace("\\", ""))).strip()


def authors(field: str) -> list:
    names = [n.strip() for n in re.split(r"\s+(?:and|&)\s+", field)]
    return [" ".join(reversed([p.strip() for p in n.split(",")])) if "," in n else n for n in names]


def cite(e: dict) -> str:
    names = authors(e["author"])
    who = names[0] if len(names) == 1 else ", ".join(names[:-1]) + " and " + names[-1]
    parts = [who, f"\"{e['title']}\""]
    if "journal" in e:
        where = e["journal"]
        if "volume" in e:
            where += f" {e['volume']}"
        where += f" ({e['year']})"
        parts.append(where + (f" {e['pages']}" if "pages" in e else ""))
    else:
        place = e.get("booktitle") or e.get("school") or e.get("publisher") or e.get("institution") or e.get("note")
        if "number" in e and "institution" in e:
            place += f", {e['number']}"
        parts.append(f"{place} ({e['year']})" + (f" {e['pages']}" if "pages" in e else ""))
    if "doi" in e:
        parts.append(f"doi:{e['doi']}")
    return ", ".join(parts)
