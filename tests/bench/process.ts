/** What Linux says of a process. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

const TICKS = Number(execFileSync('getconf', ['CLK_TCK'], { encoding: 'utf8' }));

/** Seconds of CPU that the processes have used so far: fields 14 and 15 of proc(5)'s stat. */
export function cpuSeconds(pids: readonly number[]): number {
  return pids.reduce((sum, pid) => {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    return sum + (Number(fields[11]) + Number(fields[12])) / TICKS;
  }, 0);
}

/** Resident memory of the processes in megabytes; what they share counts for each. */
export function residentMegabytes(pids: readonly number[]): number {
  return pids.reduce((sum, pid) => {
    const kilobytes = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
    return sum + Number(kilobytes ?? 0) / 1024;
  }, 0);
}
