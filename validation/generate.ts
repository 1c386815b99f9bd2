import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { loadGroups } from "./validation-case.ts";
import { writeDocument } from "./write-document.ts";

writeFileSync(fileURLToPath(new URL("../docs/validation.md", import.meta.url)), writeDocument(loadGroups()));
