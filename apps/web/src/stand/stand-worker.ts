import { type StandBand, type StandQuestion, searchStands } from "@gantline/engine";
import { doJobs, type WorkingScope } from "@gantline/runtime";
import type { StandJob } from "./stand-jobs.ts";

/** Searches the rows it is sent. */
doJobs<readonly StandQuestion[], StandJob, StandBand>(
  self as WorkingScope,
  (questions) =>
    ({ question, fromRow, toRow, pass }) => {
      const asked = questions[question];
      const band = asked && searchStands(asked, { fromRow, toRow, pass });
      if (!band) throw new Error("there is no such question");
      return band;
    },
);
