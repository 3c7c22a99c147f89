package report

import "bytes"

// MethodsPage renders the page of equations, assumptions, model errors and sources. Its equations are those of the code.
//
// It returns an error when a template cannot be rendered.
func MethodsPage(c Content) ([]byte, error) {
	p, err := newPage(c)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = execute(&b, "methods.gohtml", struct {
		page
		Texts []methodSection
	}{p, methodSections()})
	return b.Bytes(), err
}
