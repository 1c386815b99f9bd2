import { runGantline } from "./run-gantline.ts";

// Whoever reads may stop early (`gantline example crossing | head`): that is no error.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit();
  });
}

const { exitStatus, output = "", complaint = "" } = await runGantline(process.argv.slice(2));
process.exitCode = exitStatus;
if (complaint !== "") process.stderr.write(complaint);
if (output !== "") process.stdout.write(output);
