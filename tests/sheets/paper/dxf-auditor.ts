import { execFileSync } from "node:child_process";

/** Debian's Python, which has ezdxf where the package python3-ezdxf is installed. */
const PYTHON = "/usr/bin/python3";

/** Whether an independent reader of DXF is on this machine; a skip says so. */
export const auditor = (() => {
  try {
    execFileSync(PYTHON, ["-c", "import ezdxf"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();

export const withoutAuditor = auditor ? "" : " (skipped: Python with ezdxf is not on this machine)";

export interface Audit {
  readonly version: string;
  /** The header's unit of length; 4: mm. */
  readonly units: number;
  readonly errors: readonly string[];
  readonly fixes: readonly string[];
  /** Of the closed outlines on layer CUT, in their order. */
  readonly areas: readonly number[];
  readonly words: readonly string[];
}

const SCRIPT = `
import io, json, sys
from ezdxf import recover
from ezdxf.lldxf.encoding import decode_dxf_unicode
def audited(text):
    doc, audit = recover.read(io.BytesIO(text.encode()))
    areas, words = [], []
    for e in doc.modelspace():
        if e.dxftype() == "LWPOLYLINE" and e.dxf.layer == "CUT" and e.closed:
            p = list(e.get_points("xy"))
            areas.append(sum(a[0]*b[1]-b[0]*a[1] for a, b in zip(p, p[1:]+p[:1]))/2)
        if e.dxftype() == "TEXT":
            words.append(decode_dxf_unicode(e.dxf.text))
    return {"version": doc.dxfversion, "units": doc.header.get("$INSUNITS"), "areas": areas, "words": words,
        "errors": [e.message for e in audit.errors], "fixes": [e.message for e in audit.fixes]}
print(json.dumps([audited(text) for text in json.load(sys.stdin)]))
`;

/** What ezdxf says of each file: what is wrong, what it had to repair, and what it read. One run for all, as Python starts slowly. */
export function auditDxf(texts: readonly string[]): Audit[] {
  const input = JSON.stringify(texts);
  return JSON.parse(execFileSync(PYTHON, ["-c", SCRIPT], { input, encoding: "utf8", maxBuffer: 1e8 }));
}
