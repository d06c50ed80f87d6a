package parts

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// helper is the variable of the environment that turns the test binary into a process
// that works on a directory: what it does, and where.
const helper = "PARTS_TEST_HELPER"

func TestMain(m *testing.M) {
	what, dir, _ := strings.Cut(os.Getenv(helper), ":")
	switch what {
	case "":
		os.Exit(m.Run())
	case "open":
		_, err := Open(dir, theManifest, Shard{}, recordBytes)
		fmt.Println(err)
	case "work": // writes a part for every block, as fast as it can
		d, err := Open(dir, theManifest, Shard{}, recordBytes)
		for i := 0; err == nil; i++ {
			first := i * 50
			if d.Find(keyOf(0), first, 50) == nil {
				err = errors.Join(d.Save(keyOf(0), first, records(0, first, 50)), d.Flush())
			}
			if of, limited := os.LookupEnv("PARTS_TEST_BLOCKS"); limited {
				if n, _ := strconv.Atoi(of); i+1 == n {
					os.Exit(0)
				}
			}
		}
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func start(t *testing.T, what, dir string, env ...string) *exec.Cmd {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(exe)
	c.Env = append(append(os.Environ(), helper+"="+what+":"+dir), env...)
	c.Stderr = os.Stderr
	return c
}

// A worker killed while it writes leaves whole parts, and at the worst a temporary
// file, which is not read and goes away later.
func TestKilledWorker(t *testing.T) {
	dir := t.TempDir()
	kept := 0
	for try := range 5 {
		c := start(t, "work", dir)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		for deadline := time.Now().Add(20 * time.Second); time.Now().Before(deadline); time.Sleep(time.Millisecond) {
			if all, _ := filepath.Glob(filepath.Join(dir, "*"+partSuffix)); len(all) > kept+1 {
				break
			}
		}
		time.Sleep(time.Duration(try) * 300 * time.Microsecond)
		if err := c.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		if err := c.Wait(); err == nil {
			t.Fatal("it ended by itself")
		}
		d := open(t, dir, theManifest, Shard{})
		n := 0
		for d.Find(keyOf(0), n*50, 50) != nil {
			n++
		}
		if n <= kept {
			t.Errorf("%d blocks after %d", n, kept)
		}
		kept = n
	}
}

func TestLeftoversGoAway(t *testing.T) {
	dir := t.TempDir()
	for name, age := range map[string]time.Duration{"old": time.Hour, "new": 0} {
		path := filepath.Join(dir, tempPrefix+name+tempSuffix)
		if err := os.WriteFile(path, []byte(magic), 0o666); err != nil {
			t.Fatal(err)
		}
		then := time.Now().Add(-age)
		if err := os.Chtimes(path, then, then); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := Join([]string{dir}, recordBytes); err == nil {
		t.Error("a directory without a manifest was joined")
	}
	open(t, dir, theManifest, Shard{})
	if left := names(t, dir); left[".playout-old.tmp"] || !left[".playout-new.tmp"] || !left[manifestName] || len(left) != 2 {
		t.Errorf("left: %v", left)
	}
}

// Three processes do the same work at once: nobody is disturbed, all is there once.
func TestAtOnce(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "work")
	var all []*exec.Cmd
	for range 3 {
		c := start(t, "work", dir, "PARTS_TEST_BLOCKS=60")
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		all = append(all, c)
	}
	for _, c := range all {
		if err := c.Wait(); err != nil {
			t.Error(err)
		}
	}
	d, err := Join([]string{dir}, recordBytes)
	if err != nil {
		t.Fatal(err)
	}
	if got := d.Find(keyOf(0), 0, 3000); string(got) != string(records(0, 0, 3000)) {
		t.Error("other records than one process gives")
	}
	for name := range names(t, dir) {
		if strings.HasSuffix(name, tempSuffix) {
			t.Errorf("%s is left", name)
		}
	}
}

// full is a file on a disk that has room for so many bytes more, and that may only
// find out late.
type full struct {
	*os.File
	room        int
	late, later bool // found out by Sync, by Close
}

func (f *full) Write(b []byte) (int, error) {
	if f.late || f.later || len(b) <= f.room {
		return f.File.Write(b)
	}
	n, _ := f.File.Write(b[:f.room])
	return n, &os.PathError{Op: "write", Path: f.Name(), Err: syscall.ENOSPC}
}

func (f *full) Sync() error {
	if f.late {
		return &os.PathError{Op: "sync", Path: f.Name(), Err: syscall.ENOSPC}
	}
	return f.File.Sync()
}

func (f *full) Close() error {
	err := f.File.Close()
	if f.later {
		return &os.PathError{Op: "close", Path: f.Name(), Err: syscall.EDQUOT}
	}
	return err
}

func TestFullDisk(t *testing.T) {
	for _, disk := range []full{{room: 0}, {room: 300}, {late: true}, {later: true}} {
		dir := t.TempDir()
		fill(t, dir, theManifest, Shard{}, 0, 0, 100)
		before := names(t, dir)
		d := open(t, dir, theManifest, Shard{})
		d.create = func(dir string) (file, error) {
			f, err := os.CreateTemp(dir, tempPrefix+"*"+tempSuffix)
			return &full{f, disk.room, disk.late, disk.later}, err
		}
		if err := d.Save(keyOf(0), 100, records(0, 100, 100)); err != nil {
			t.Fatal(err)
		}
		err := d.Flush()
		var f *Fault
		if !errors.As(err, &f) || f.File != dir || !strings.Contains(f.What, "no space left on device") && !strings.Contains(f.What, "quota") || !strings.Contains(f.Mend, "make room") {
			t.Errorf("err = %v", err)
		}
		after := names(t, dir)
		if len(after) != len(before) {
			t.Errorf("left: %v", after)
		}
		if d := open(t, dir, theManifest, Shard{}); d.Find(keyOf(0), 0, 100) == nil || d.Find(keyOf(0), 100, 1) != nil {
			t.Error("the earlier part has suffered")
		}
		d.create = createTemp // somebody has made room
		if err := d.Flush(); err != nil {
			t.Fatal(err)
		}
		if open(t, dir, theManifest, Shard{}).Find(keyOf(0), 0, 200) == nil {
			t.Error("what waited is lost")
		}
	}
}

// A real disk without room, where the test may mount one.
func TestFullFileSystem(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=64k"); err != nil {
		t.Skipf("no small file system can be mounted here (%v); TestFullDisk stands in for it", err)
	}
	defer syscall.Unmount(dir, syscall.MNT_DETACH)
	fill(t, dir, theManifest, Shard{}, 0, 0, 100)
	before := names(t, dir)
	d := open(t, dir, theManifest, Shard{})
	const much = 50_000
	if err := d.Save(keyOf(0), 100, records(0, 100, much)); err != nil {
		t.Fatal(err)
	}
	if err := d.Flush(); !strings.Contains(fmt.Sprint(err), "no space left on device") {
		t.Errorf("err = %v", err)
	}
	if after := names(t, dir); len(after) != len(before) {
		t.Errorf("left: %v", after)
	}
	if open(t, dir, theManifest, Shard{}).Find(keyOf(0), 0, 100) == nil {
		t.Error("the earlier part has suffered")
	}
}

func TestNoPlaceForParts(t *testing.T) {
	path := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(path, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(path, theManifest, Shard{}, recordBytes); err == nil || !strings.Contains(err.Error(), path+": is a file") {
		t.Errorf("err = %v", err)
	}
	if _, err := Open(filepath.Join(path, "below"), theManifest, Shard{}, recordBytes); err == nil || !strings.Contains(err.Error(), "cannot be made: not a directory") {
		t.Errorf("err = %v", err)
	}
	for _, path := range []string{filepath.Join(t.TempDir(), "nowhere"), path} {
		if _, err := Join([]string{path}, recordBytes); err == nil || !strings.Contains(err.Error(), path+": ") {
			t.Errorf("err = %v", err)
		}
	}
}

// A directory in which nothing may be written is told at once, before anything is
// played. Root may write anywhere, so the test becomes another user.
func TestReadOnly(t *testing.T) {
	dir, err := os.MkdirTemp("", "parts") // one that another user can reach
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir)
	c := start(t, "open", dir)
	if os.Geteuid() == 0 {
		const nobody = 65534
		program, err := os.ReadFile(c.Path)
		if err != nil {
			t.Fatal(err)
		}
		c.Path = filepath.Join(dir, "program")
		if err := os.WriteFile(c.Path, program, 0o755); err != nil {
			t.Fatal(err)
		}
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	before := names(t, dir)
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	out, err := c.Output()
	if err != nil {
		t.Fatal(err)
	}
	if want := dir + ": cannot be written: permission denied; "; !strings.HasPrefix(string(out), want) {
		t.Errorf("got %q, want %q", out, want)
	}
	if left := names(t, dir); len(left) != len(before) {
		t.Errorf("left: %v", left)
	}
}
