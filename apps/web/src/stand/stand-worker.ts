import { type StandBand, type StandQuestion, standSearcher } from "@gantline/engine";
import { doJobs, type WorkingScope } from "@gantline/runtime";
import type { StandJob } from "./stand-jobs.ts";

/** Searches the rows it is sent. */
doJobs<readonly StandQuestion[], StandJob, StandBand>(self as WorkingScope, (questions) => {
  const searchers = questions.map(standSearcher);
  return ({ question, fromRow, toRow, pass }) => {
    const band = searchers[question]?.({ fromRow, toRow, pass });
    if (!band) throw new Error("there is no such question");
    return band;
  };
});
