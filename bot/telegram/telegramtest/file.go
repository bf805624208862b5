package telegramtest

import (
	"bytes"
	"image"
	"net/http"
	"path"
	"regexp"
	"strings"
)

// storedFile is a file on the platform's servers.
type storedFile struct {
	id     string
	name   string
	mime   string
	data   []byte
	size   int // as told; a test may claim more than data holds
	path   string
	width  int
	height int
}

// downloadMost is the largest file a bot can fetch (Bot API, getFile).
const downloadMost = 20 << 20

// Download is the name under which Inject and Calls know the fetching of a file.
const Download = "(download)"

var plainExt = regexp.MustCompile(`^\.[A-Za-z0-9]{1,8}$`)

func (s *Server) store(photo bool, name, mime string, data []byte, size int) *storedFile {
	n := len(s.files) + 1
	f := &storedFile{id: "AgACAg-file-" + itoa(n), name: name, mime: mime, data: data, size: size, width: 640, height: 480}
	folder := "documents/file_"
	if photo {
		folder = "photos/file_"
		if cfg, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil {
			f.width, f.height = cfg.Width, cfg.Height
		}
	}
	f.path = folder + itoa(n)
	if ext := path.Ext(name); plainExt.MatchString(ext) && !photo {
		f.path += ext
	}
	s.files = append(s.files, f)
	return f
}

// file finds a file by identifier. A photo's smaller size has its own.
func (s *Server) file(id string) *storedFile {
	id = strings.TrimSuffix(id, smallSuffix)
	for _, f := range s.files {
		if f.id == id {
			return f
		}
	}
	return nil
}

const smallSuffix = "-s"

func (f *storedFile) sizes() []object {
	small := object{"file_id": f.id + smallSuffix, "file_unique_id": "u" + f.id + smallSuffix,
		"width": max(1, f.width/4), "height": max(1, f.height/4), "file_size": max(1, f.size/8)}
	return []object{small, {"file_id": f.id, "file_unique_id": "u" + f.id,
		"width": f.width, "height": f.height, "file_size": f.size}}
}

func (f *storedFile) document() object {
	o := object{"file_id": f.id, "file_unique_id": "u" + f.id, "file_size": f.size}
	put(o, "file_name", f.name)
	put(o, "mime_type", f.mime)
	return o
}

func (s *Server) getFile(c *call) (any, *refusal) {
	f := s.file(c.params["file_id"])
	if f == nil {
		return nil, badRequest("invalid file_id")
	}
	if f.size > downloadMost {
		return nil, badRequest("file is too big")
	}
	return object{"file_id": f.id, "file_unique_id": "u" + f.id, "file_size": f.size, "file_path": f.path}, nil
}

// serveFile answers GET /file/bot<token>/<file_path>.
func (s *Server) serveFile(w http.ResponseWriter, r *http.Request, rest string) {
	token, where, _ := strings.Cut(rest, "/")
	if no := s.checkToken(token); no != nil {
		fail(w, no)
		return
	}
	c := &call{ctx: r.Context(), method: Download, rec: &Call{Method: Download, Params: map[string]string{"file_path": where}}}
	s.mu.Lock()
	s.calls = append(s.calls, c.rec)
	fault := s.nextFault(Download, 0)
	var found *storedFile
	for _, f := range s.files {
		if f.path == where {
			found = f
		}
	}
	s.touch()
	s.mu.Unlock()
	if s.strike(w, c, fault) || s.afterwards(w, c, fault) {
		return
	}
	if found == nil || found.size > downloadMost {
		s.answer(w, c, nil, &refusal{code: 404, text: "Not Found"})
		return
	}
	s.mu.Lock()
	s.settle(c, nil, http.StatusOK)
	s.mu.Unlock()
	w.Header().Set("Content-Type", "application/octet-stream")
	w.Write(found.data)
}
