#!/bin/sh
# A Slurm job array that plays an experiment in equal shares, and a job that
# merges them. On the login node, in a directory that every node sees:
#
#   playout help slurm > playout.sh
#   job=$(sbatch --parsable --array=1-8 playout.sh 8 work compare a.yaml b.yaml)
#   sbatch --dependency=afterok:$job playout.sh merge work
#
# The answer is then in the log of the second job. The number after the script
# says into how many shares the experiment is cut. Shares that failed are asked
# for again alone; what they had finished is not played anew:
#
#   sbatch --array=3,5 playout.sh 8 work compare a.yaml b.yaml
#
# More cores for each share: sbatch --cpus-per-task=16.
#SBATCH --job-name=playout
#SBATCH --requeue
#SBATCH --open-mode=append
#SBATCH --signal=B:TERM@60
set -eu
if [ "${1:-}" = merge ]; then
	exec playout "$@"
fi
if [ $# -lt 3 ]; then
	echo "usage: sbatch --array=1-N $0 N DIR COMMAND [ARGUMENTS]" >&2
	exit 2
fi
: "${SLURM_ARRAY_TASK_ID:?give sbatch --array=1-$1}"
of=$1 dir=$2
shift 2
exec playout "$@" --parts "$dir" --shard "$SLURM_ARRAY_TASK_ID/$of" \
	--workers "${SLURM_CPUS_PER_TASK:-1}" --quiet
