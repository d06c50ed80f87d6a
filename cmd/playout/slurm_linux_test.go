package main

import (
	"bytes"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// slurm is a Slurm of one node, without accounting and control groups, that lives in
// a directory of the test.
type slurm struct {
	t   *testing.T
	dir string
	env []string
}

// slurmConf is the least that works on one machine without a service manager.
const slurmConf = `ClusterName=playout
SlurmctldHost=%[1]s(127.0.0.1)
SlurmctldPort=%[2]d
SlurmdPort=%[3]d
SlurmUser=root
AuthType=auth/munge
AuthInfo=socket=%[4]s/munge.socket
StateSaveLocation=%[4]s/state
SlurmdSpoolDir=%[4]s/spool
SlurmctldPidFile=%[4]s/slurmctld.pid
SlurmdPidFile=%[4]s/slurmd.pid
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SwitchType=switch/none
MpiDefault=none
ReturnToService=2
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
SchedulerParameters=batch_sched_delay=0,sched_interval=1,bf_interval=1
NodeName=%[1]s NodeAddr=127.0.0.1 CPUs=%[5]d
PartitionName=all Nodes=%[1]s Default=YES MaxTime=10 State=UP
`

// startSlurm skips the test, with the reason, where Slurm cannot be started.
func startSlurm(t *testing.T, env []string) *slurm {
	instead := "TestArrayScript drives the same script by its environment"
	for _, program := range []string{"munged", "slurmctld", "slurmd", "sbatch", "sinfo", "squeue"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skipf("Slurm is not installed (%v); %s", err, instead)
		}
	}
	if os.Geteuid() != 0 {
		t.Skipf("Slurm is started by root only; %s", instead)
	}
	host, err := os.Hostname()
	if err != nil {
		t.Fatal(err)
	}
	host, _, _ = strings.Cut(host, ".")
	s := &slurm{t: t, dir: t.TempDir()}
	for _, sub := range []string{"state", "spool"} {
		if err := os.Mkdir(filepath.Join(s.dir, sub), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	conf := filepath.Join(s.dir, "slurm.conf")
	text := fmt.Sprintf(slurmConf, host, freePort(t), freePort(t), s.dir, runtime.NumCPU())
	key := bytes.Repeat([]byte("build-up"), 128) // nobody else is to be kept out
	for name, data := range map[string][]byte{conf: []byte(text), filepath.Join(s.dir, "munge.key"): key} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s.env = append(env, "SLURM_CONF="+conf)
	in := func(name string) string { return filepath.Join(s.dir, name) }
	s.start("munged", "--foreground", "--force", "--key-file="+in("munge.key"), "--socket="+in("munge.socket"),
		"--pid-file="+in("munged.pid"), "--log-file="+in("munged.log"), "--seed-file="+in("munged.seed"))
	s.start("slurmctld", "-D", "-f", conf)
	s.start("slurmd", "-D", "-f", conf, "-N", host)
	var out []byte
	for range 100 {
		time.Sleep(100 * time.Millisecond)
		if out, err = s.command("sinfo", "--noheader", "--format=%t").CombinedOutput(); err == nil && strings.TrimSpace(string(out)) == "idle" {
			return s
		}
	}
	t.Skipf("Slurm is installed and does not start here (%v: %s; %s); %s", err, bytes.TrimSpace(out), s.logs(), instead)
	return nil
}

// start starts a daemon, which ends with the test.
func (s *slurm) start(program string, args ...string) {
	log, err := os.Create(filepath.Join(s.dir, program+".out"))
	if err != nil {
		s.t.Fatal(err)
	}
	c := s.command(program, args...)
	c.Stdout, c.Stderr = log, log
	if err := c.Start(); err != nil {
		s.t.Fatal(err)
	}
	s.t.Cleanup(func() {
		c.Process.Signal(os.Interrupt)
		late := time.AfterFunc(5*time.Second, func() { c.Process.Kill() })
		c.Wait()
		late.Stop()
		log.Close()
	})
}

func (s *slurm) command(program string, args ...string) *exec.Cmd {
	c := exec.Command(program, args...)
	c.Env = s.env
	return c
}

// logs are the last lines of what the daemons have written.
func (s *slurm) logs() string {
	var all strings.Builder
	for _, program := range []string{"munged", "slurmctld", "slurmd"} {
		data, _ := os.ReadFile(filepath.Join(s.dir, program+".out"))
		lines := strings.Split(strings.TrimSpace(string(data)), "\n")
		fmt.Fprintf(&all, "%s: %s\n", program, strings.Join(lines[max(0, len(lines)-3):], " | "))
	}
	return all.String()
}

func freePort(t *testing.T) int {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}

// The job array of playout help slurm under a real Slurm: a share that was left out is
// missed by the merge that waits for the others, asked for alone, and then the answer
// is that of one run.
func TestSlurm(t *testing.T) {
	t.Parallel()
	work := newWorkshop(t)
	s := startSlurm(t, work.env)
	submit := func(args ...string) string {
		c := s.command("sbatch", append([]string{"--parsable"}, args...)...)
		c.Dir = work.dir
		var errs bytes.Buffer
		c.Stderr = &errs
		out, err := c.Output()
		if err != nil {
			t.Fatalf("sbatch %q: %v: %s", args, err, errs.String())
		}
		id, _, _ := strings.Cut(strings.TrimSpace(string(out)), ";")
		return id
	}
	for _, round := range []struct{ array, answer, says string }{
		{"1,3", "early.txt", "build-ups are missing, of the shares 2/3"},
		{"2", "answer.txt", work.want()},
	} {
		array := submit(append([]string{"--array=" + round.array, "--output=share-%a.log", "playout.sh", "3", "work"}, work.compare()...)...)
		submit("--dependency=afterok:"+array, "--output="+round.answer, "playout.sh", "merge", "work")
		s.wait()
		if got := work.file(round.answer); !strings.Contains(got, round.says) {
			t.Errorf("got %s\nlogs: %s%s%s\n%s", got, work.file("share-1.log"), work.file("share-2.log"), work.file("share-3.log"), s.logs())
		}
	}
	if got := work.file("answer.txt"); got != work.want() {
		t.Errorf("got %s", got)
	}
}

// wait waits until nothing is in the queue.
func (s *slurm) wait() {
	s.t.Helper()
	for deadline := time.Now().Add(time.Minute); ; time.Sleep(100 * time.Millisecond) {
		out, err := s.command("squeue", "--noheader").CombinedOutput()
		if err != nil {
			s.t.Fatalf("%v: %s", err, out)
		}
		if len(bytes.TrimSpace(out)) == 0 {
			return
		}
		if time.Now().After(deadline) {
			s.t.Fatalf("still in the queue: %s%s", out, s.logs())
		}
	}
}
