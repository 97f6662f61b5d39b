/**
 * A clock of work: between two readings it goes on by what the processor has done for this process, and by the time that
 * has passed where that is less. A machine that is busy elsewhere does not make work longer by it.
 *
 * @param now ms that have passed since any fixed moment.
 * @param usage Microseconds of the processor, as `process.cpuUsage` tells them.
 * @returns ms of work since any fixed moment.
 */
export function workClock(now: () => number, usage: () => NodeJS.CpuUsage): () => number {
  const usedBy = () => {
    const { user, system } = usage();
    return (user + system) / 1000;
  };
  let [moment, used, work] = [now(), usedBy(), 0];
  return () => {
    const [nextMoment, nextUsed] = [now(), usedBy()];
    work += Math.max(0, Math.min(nextMoment - moment, nextUsed - used));
    [moment, used] = [nextMoment, nextUsed];
    return work;
  };
}
