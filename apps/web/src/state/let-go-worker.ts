import { criticalPoints, doLetGoTask, gatherLetGo, letGoAt, letGoMoments, sweepCuts, techniques } from "@gantline/plan";
import { doJobs, type WorkingScope } from "@gantline/runtime";
import type { LetGoAnswer, LetGoJob, LetGoMatter } from "./let-go-jobs.ts";

/** Works out what happens when a line goes. */
doJobs<LetGoMatter, LetGoJob, LetGoAnswer>(self as WorkingScope, ({ plan, when, tipGives }) => (job) => {
  switch (job.kind) {
    case "cuts": {
      const moments = letGoMoments(plan);
      const upTo = (part: number) => Math.round((part / job.of) * moments.length);
      return {
        kind: "cuts",
        swept: sweepCuts(plan, moments.slice(upTo(job.part), upTo(job.part + 1)), { tipGives }) ?? [],
      };
    }
    case "task":
      return { kind: "task", part: doLetGoTask(plan, job.task, { tipGives }) };
    case "gather":
      return { kind: "gather", found: gatherLetGo(plan, job.swept, job.parts, { tipGives }) };
    case "case":
      return { kind: "case", one: letGoAt(plan, when, job.lineId, { replay: true, tipGives }) };
    case "critical":
      return { kind: "critical", points: criticalPoints(plan, when, { tipGives }) };
    case "techniques":
      return { kind: "techniques", rows: techniques(plan, when, { tipGives }) };
  }
});
